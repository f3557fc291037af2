// The README's pictures, made by the page itself.

import { mkdirSync } from "node:fs";
import { DESK, PHONE, launch, open, settled, spot, turnTo } from "./driver.mjs";

const FOLDER = new URL("../../web/shots/", import.meta.url).pathname;
mkdirSync(FOLDER, { recursive: true });
const browser = await launch();
for (const [name, viewport] of [["phone", PHONE], ["desk", DESK]]) {
  for (const scheme of ["light", "dark"]) {
    const { context, page } = await open(browser, { viewport, scheme });
    // What is worked out while nothing moves is in the picture.
    await page.waitForFunction(() => document.querySelector(".readout .spread")?.textContent);
    await page.screenshot({ path: `${FOLDER}${name}-${scheme}.png` });
    if (process.argv.includes("--all")) {
      for (const panel of ["Curves", "What hits", "My truck", "Send", "Safety"]) {
        await turnTo(page, panel);
        await settled(page);
        await page.screenshot({ path: `${FOLDER}${name}-${scheme}-${panel.toLowerCase()}.png` });
      }
      await turnTo(page, "Parts");
      const from = await spot(page, "wheel-centre");
      await page.mouse.move(from.x, from.y);
      await page.mouse.down();
      await page.mouse.move(from.x, from.y - 40, { steps: 6 });
      await settled(page);
      await page.screenshot({ path: `${FOLDER}${name}-${scheme}-drag.png` });
      await page.mouse.up();
    }
    await context.close();
  }
}
await browser.close();
