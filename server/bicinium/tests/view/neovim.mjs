// Types in Neovim and looks at the page of its sheet in a browser; tells what is seen, as one JSON object.
import { execFileSync, spawn } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { connect } from "node:net";
import { setTimeout as pause } from "node:timers/promises";

const [, , driver, chromiumPath, neovim, script, sheet, packages] = process.argv;
const { BICINIUM_ADDRESS, BICINIUM_SOCKET, BICINIUM_PICTURES } = process.env;
const { chromium } = createRequire(driver)("./");

async function wait(what, read) {
  for (let left = 300; left > 0; left -= 1) {
    const value = await read();
    if (value) return value;
    await pause(100);
  }
  throw new Error(`waited in vain for ${what}`);
}

/** Keys for Neovim over its socket, as a MessagePack request; the answers are of no interest. */
class Keyboard {
  #socket = connect(BICINIUM_SOCKET);
  #number = 0;

  constructor() {
    this.#socket.resume();
  }

  type(keys) {
    const text = (string) => Buffer.concat([Buffer.from([0xd9, Buffer.byteLength(string)]), Buffer.from(string)]);
    this.#number = (this.#number + 1) % 128;
    const head = Buffer.from([0x94, 0x00, this.#number]);
    this.#socket.write(Buffer.concat([head, text("nvim_input"), Buffer.from([0x91]), text(keys)]));
  }

  leave() {
    this.#socket.destroy();
  }
}

function evaluate(expression) {
  return execFileSync(neovim, ["--server", BICINIUM_SOCKET, "--remote-expr", expression], { encoding: "utf8" });
}

const editor = spawn(neovim, [
  "--headless", "--clean", "-n", "-i", "NONE", "--listen", BICINIUM_SOCKET,
  "--cmd", `set runtimepath^=${packages}`, "--cmd", `luafile ${script}`, sheet,
], { stdio: ["ignore", "ignore", "inherit"] });
const seen = { errors: [], milliseconds: [] };
let isOver = false;
const browser = await chromium.launch({
  executablePath: chromiumPath,
  args: ["--no-sandbox", "--autoplay-policy=no-user-gesture-required"],
});
try {
  await wait("the address", () => existsSync(BICINIUM_ADDRESS));
  const address = await wait("the address", () => readFileSync(BICINIUM_ADDRESS, "utf8").trim());
  const page = await browser.newPage({ viewport: { width: 1200, height: 900 } });
  page.on("console", (message) => message.type() === "error" && !isOver && seen.errors.push(message.text()));
  page.on("pageerror", (error) => seen.errors.push(String(error)));
  await page.goto(address);
  await page.waitForSelector("#score svg");
  const keyboard = new Keyboard();

  // A pitch typed over another, again and again; the page notes when it has drawn it.
  await page.evaluate(() => {
    window.drawn = new Map();
    new MutationObserver(() => {
      const label = document.querySelector("#x1-upper-192")?.getAttribute("aria-label") ?? "";
      const pitch = label.split(",")[0];
      if (pitch !== window.before) window.drawn.set(pitch, Date.now());
      window.before = pitch;
    }).observe(document.getElementById("score"), { childList: true });
  });
  keyboard.type("gg/B4<CR>");
  for (const [letter, pitch] of ["A", "C", "A", "D", "B"].map((it) => [it, `${it}4`])) {
    await page.evaluate((pitch) => { window.drawn.delete(pitch); }, pitch);
    await pause(150);
    const typed = Date.now();
    keyboard.type(`r${letter}`);
    const drawn = await wait("the new note", () => page.evaluate((pitch) => window.drawn.get(pitch), pitch));
    seen.milliseconds.push(drawn - typed);
  }
  seen.saved = readFileSync(sheet, "utf8");

  // The cursor goes to a note, and the note lights up.
  keyboard.type("gg/D4<CR>");
  await page.waitForSelector("#x1-lower-256.chosen");
  seen.pointed = await page.textContent("#said");

  // A note is clicked, and the cursor goes there.
  const click = async (id) => {
    const box = await page.locator(id).boundingBox();
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  };
  await click("#x1-lower-128");
  seen.cursor = await wait("the cursor", () => {
    const word = evaluate("expand('<cword>')").trim();
    return word === "F4" && word;
  });

  // A hole: the second choice is heard, and written by the editor.
  await click("#x1-upper-64");
  await page.waitForSelector("#choices input");
  await page.waitForSelector("#x1-upper-64.ghost");
  seen.choices = await page.locator("#choices label").allTextContents();
  await page.keyboard.press("ArrowDown");
  const second = await page.locator("#choices label:has(:checked) b").textContent();
  await page.waitForFunction((pitch) => document.querySelector("#x1-upper-64.ghost")?.getAttribute("aria-label").startsWith(pitch), second);
  await page.click("#hear");
  await page.waitForFunction(() => document.querySelector("#x1-upper-64.sounding"));
  if (BICINIUM_PICTURES) await page.screenshot({ path: `${BICINIUM_PICTURES}/ghosts.png`, fullPage: true });
  await page.click("#write");
  await wait("the note in the editor", () => evaluate("join(getline(1, '$'), \"\\n\")").split("?").length === 2);
  seen.second = second;
  seen.written = evaluate("join(getline(1, '$'), \"\\n\")");
  await page.waitForFunction(() => document.querySelector("#ghosts").hidden);
  await page.waitForFunction((pitch) => document.querySelector("#x1-upper-64")?.getAttribute("aria-label").startsWith(pitch), second);
  seen.left = readFileSync(sheet, "utf8");

  isOver = true;
  keyboard.type(":qall!<CR>");
  await wait("the end of the editor", () => editor.exitCode !== null);
  await page.waitForFunction(() => document.querySelector("#trouble").textContent.startsWith("Nobody answers"));
  keyboard.leave();
} finally {
  await browser.close();
  editor.kill();
}
console.log(JSON.stringify(seen));
