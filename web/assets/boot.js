// Starts the page. A file of its own, so that the page needs no inline script.
// The two names below are what the build calls these files; a release puts their content's hash in.

const SENTENCES = {
  missing: "Scrubline needs WebAssembly, which this browser does not have or has turned off. A current browser, or this one outside its strictest protection mode, opens it.",
  unreachable: "Scrubline could not be loaded completely. Check the connection, then reload the page.",
  broken: "Scrubline could not start in this browser. Reload the page; if that does not help, try a current browser.",
};

function say(sentence, error) {
  console.error(error);
  let boot = document.getElementById("boot");
  if (!boot) {
    boot = document.createElement("div");
    boot.id = "boot";
    document.body.prepend(boot);
  }
  let status = boot.querySelector("p");
  if (!status) {
    status = document.createElement("p");
    boot.append(status);
  }
  status.setAttribute("role", "alert");
  status.textContent = sentence;
}

async function start() {
  if (typeof WebAssembly !== "object") {
    say(SENTENCES.missing, "no WebAssembly");
    return;
  }
  let init, bytes;
  try {
    const file = new URL("./web_bg.wasm", import.meta.url);
    const [glue, response] = await Promise.all([import("./web.js"), fetch(file)]);
    if (!response.ok) throw new Error(`${file} answered ${response.status}`);
    init = glue.default;
    bytes = response;
  } catch (error) {
    say(SENTENCES.unreachable, error);
    return;
  }
  try {
    await init({ module_or_path: bytes });
  } catch (error) {
    say(SENTENCES.broken, error);
  }
}

start();
