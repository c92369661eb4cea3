// Shows the score in a panel of VS Code and tells what is seen there, and in the editor beside it.
import { writeFileSync } from "node:fs";

import { Window, use } from "./vscode-window.mjs";

const { BICINIUM_STORY, BICINIUM_PICTURE } = process.env;
const story = {};

async function goThrough(window) {
  await window.open();
  await window.wait("the colours", () => window.page.locator(".view-line span[class*=mtk]").count());
  await window.command("Show the Score Beside the Sheet");
  const score = await window.wait("the score", async () => {
    for (const frame of window.page.frames()) {
      const is_shown = frame.url().includes("/panel") && (await frame.locator("#score svg").count()) > 0;
      if (is_shown) return frame;
    }
  });
  story.title = await score.locator("#name").textContent();

  // The cursor goes to a note, and the note is lit.
  await window.goTo(12, 40);
  story.pointed = await window.wait("the note at the cursor", async () => {
    const label = await score.locator("#score .chosen").first().getAttribute("aria-label", { timeout: 1000 }).catch(() => "");
    return label.startsWith("E3") && label;
  });

  // A note is clicked, and the editor selects it.
  const [first] = await score.locator("#score g[id*=upper]").all();
  story.clicked = await first.getAttribute("aria-label");
  const box = await first.boundingBox();
  await window.page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  await window.page.waitForSelector(".monaco-editor .selected-text");
  // Only the editor that has the keyboard tells what is selected in it.
  await window.page.locator(".tab", { hasText: /^mill\.bicinium/ }).first().click();
  story.selected = await window.wait("the selection", async () => {
    const place = await window.page.locator(".statusbar-item", { hasText: /\(\d+ selected\)/ }).allInnerTexts();
    return place[0];
  });

  // What is typed is drawn.
  story.groups = await window.page.locator(".editor-group-container").count();
  await window.goTo(12, 40);
  await window.keyboard.press("Delete");
  await window.keyboard.press("Delete");
  await window.keyboard.type("?");
  story.hole = await window.wait("the hole", async () => {
    const holes = score.locator("#score g[aria-label^='to be chosen']");
    return (await holes.count()) > 0 && holes.first().getAttribute("aria-label");
  });
  if (BICINIUM_PICTURE) await window.page.screenshot({ path: BICINIUM_PICTURE });
}

await use(story, (page) => goThrough(new Window(page)));
writeFileSync(BICINIUM_STORY, JSON.stringify(story));
