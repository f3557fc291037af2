// Nothing leaves: a whole session asks for the page's own files and for nothing else.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { DESK, code, drag, launch, openIn, press, ready, settled, turnTo, type } from "./driver.mjs";
import { filesOfPage, serve } from "./site.mjs";

let browser;
let site;
before(async () => {
  browser = await launch();
  site = await serve(await filesOfPage());
});
after(async () => {
  await browser?.close();
  await site?.stop();
});

/** Writes down every address that pages and workers of a context ask for, sockets and beacons too. */
function listen(context) {
  const asked = [];
  context.on("targetcreated", async (target) => {
    // The browser's own windows are targets as well.
    if (!/page|worker/.test(target.type())) return;
    const session = await target.createCDPSession().catch(() => null);
    if (!session) return;
    session.on("Network.requestWillBeSent", ({ request, type }) => asked.push({ from: target.type(), url: request.url, type, body: request.hasPostData }));
    session.on("Network.webSocketCreated", ({ url }) => asked.push({ from: target.type(), url, type: "WebSocket" }));
    await session.send("Network.enable").catch(() => {});
  });
  return asked;
}

const foreign = (asked) => asked.filter(({ url, body }) => body || !(url.startsWith(site.url) || /^(data|blob):/.test(url)));

test("a session from the first visit to the last link asks for the page's own files only", async () => {
  const context = await browser.createBrowserContext();
  const asked = listen(context);
  await context.overridePermissions(new URL(site.url).origin, ["clipboard-read", "clipboard-write"]);
  const { page, faults } = await openIn(context, { viewport: DESK, url: site.url });
  await page.evaluate(() => navigator.serviceWorker.ready);
  await drag(page, "wheel-centre", [[0, -30]]);
  await type(page, "Drop, pin higher", "2 1/2");
  const panels = await page.$$eval("nav[aria-label=Panels] button:not(.more)", (buttons) => buttons.map((button) => button.textContent));
  assert.ok(panels.length >= 5);
  for (const panel of panels) await turnTo(page, panel);
  await turnTo(page, "Send");
  await type(page, "Name of this truck", "Ours");
  await press(page, "Copy");
  await press(page, "QR code");
  for (const way of ["Copy as text", "Picture, PNG", "Picture, SVG", "Table, CSV"]) await press(page, way);
  const own = await code(page);
  await page.evaluate((text) => { location.hash = text; }, own.slice(0, -3));
  await settled(page);
  await page.reload();
  await ready(page);
  const other = await context.newPage();
  await other.goto(`${site.url}#${own}`);
  await ready(other);
  await new Promise((done) => setTimeout(done, 500));
  assert.ok(asked.some(({ url }) => url.endsWith(".packed")), "what is asked for is heard");
  assert.deepEqual(foreign(asked), []);
  assert.ok(!asked.some(({ url }) => url.includes(own) && !url.includes("#")), "a design is in no address that is sent");
  assert.ok(site.asked.every((path) => !path.includes(own)));
  assert.deepEqual(faults, []);
  await context.close();
});

test("the page's own policy refuses every way out", async () => {
  const context = await browser.createBrowserContext();
  const asked = listen(context);
  const { page } = await openIn(context, { url: site.url });
  const refused = await page.evaluate(async () => {
    const broken = [];
    document.addEventListener("securitypolicyviolation", (event) => broken.push(event.effectiveDirective));
    const away = "https://elsewhere.invalid/";
    await fetch(away).catch(() => {});
    navigator.sendBeacon(away, "x");
    try { new WebSocket("wss://elsewhere.invalid/"); } catch { /* as it should be */ }
    new Image().src = away;
    document.head.append(Object.assign(document.createElement("script"), { src: away }));
    document.head.append(Object.assign(document.createElement("script"), { textContent: "window.inline = true" }));
    const form = Object.assign(document.createElement("form"), { action: away, method: "post" });
    document.body.append(form);
    form.submit();
    document.body.append(Object.assign(document.createElement("iframe"), { src: away }));
    // What a test evaluates is allowed to evaluate more; a timer is the page's.
    setTimeout("window.evaluated = true");
    // Each refusal is reported in its own time.
    for (let times = 0; times < 100 && new Set(broken).size < 6; times += 1) await new Promise((done) => setTimeout(done, 50));
    return { broken: [...new Set(broken)].sort(), ran: [typeof window.inline, typeof window.evaluated] };
  });
  assert.deepEqual(refused.broken, ["connect-src", "form-action", "frame-src", "img-src", "script-src", "script-src-elem"]);
  assert.deepEqual(refused.ran, ["undefined", "undefined"]);
  // A form or a frame may be announced before it is refused; the host does not exist, and nothing else is asked for.
  assert.deepEqual(foreign(asked).filter(({ url }) => !url.includes("elsewhere.invalid")), []);
  await context.close();
});
