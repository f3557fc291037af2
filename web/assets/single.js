// Starts the page that is one file, on a disk. The build puts this behind the code's glue, whose start is `__wbg_init`;
// boot.js starts the page on a server.

/* UNPACK */

// Whether somebody has touched the page already, for whoever asks later.
for (const touch of ["pointerdown", "keydown"]) {
  addEventListener(touch, () => document.documentElement.setAttribute("data-touched", ""), { capture: true, once: true });
}

async function start() {
  const boot = document.getElementById("boot");
  const say = (sentence, error) => {
    console.error(error);
    document.body.prepend(boot);
    const status = boot.querySelector("p");
    status.setAttribute("role", "alert");
    status.textContent = sentence;
    boot.scrollIntoView();
  };
  if (typeof WebAssembly !== "object") {
    say("Scrubline needs WebAssembly, which this browser does not have or has turned off.", "no WebAssembly");
    return;
  }
  try {
    const code = document.getElementById("scrubline-code");
    const bytes = Uint8Array.from(atob(code.textContent), (letter) => letter.charCodeAt(0));
    code.remove();
    const isCode = !globalThis.scrublineUnpack;
    await __wbg_init({ module_or_path: isCode ? bytes : await scrublineUnpack(new Response(bytes).body) });
    window.dispatchEvent(new Event("scrubline-rest"));
  } catch (error) {
    say("Scrubline could not start in this browser. Try a current one.", error);
    return;
  }
  // An error that came through the page's code has left it in the middle of something.
  const hear = ({ error, reason }) => {
    const what = error ?? reason;
    if (what instanceof WebAssembly.RuntimeError || /wasm/.test(what?.stack)) say("Something in Scrubline broke, and it has stopped. Open the file again: your work is kept, but for its last second.", what);
  };
  addEventListener("error", hear);
  addEventListener("unhandledrejection", hear);
}

start();
