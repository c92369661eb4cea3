// Reads a list of texts and writes for each the stretches that the TextMate grammar names.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

const folder = process.argv[2];
const require = createRequire(join(folder, "package.json"));
const { Registry, INITIAL, parseRawGrammar } = require("vscode-textmate");
const oniguruma = require("vscode-oniguruma");

/** The class that a scope stands for, the most telling part of its name first. */
const CLASSES = [
  [/^comment/, "comment"],
  [/^keyword\.operator\.hold/, "hold"],
  [/^keyword/, "keyword"],
  [/^storage\.type\.role/, "role"],
  [/^support\.type\.mode/, "mode"],
  [/^entity\.name\.function\.numeral/, "numeral"],
  [/^entity\.name/, "name"],
  [/^constant\.numeric/, "number"],
  [/^string/, "text"],
  [/^punctuation\.separator\.barline/, "barline"],
  [/^punctuation\.section\.group/, "group"],
  [/^constant\.language\.hole/, "hole"],
  [/^constant\.language\.rest/, "rest"],
  [/^constant\.other\.pitch/, "pitch"],
];

function classOf(scopes) {
  const scope = scopes.filter((it) => !it.startsWith("source.")).at(-1);
  return scope && CLASSES.find(([pattern]) => pattern.test(scope))?.[1];
}

function stretches(grammar, text) {
  const found = [];
  let state = INITIAL;
  let offset = 0;
  for (const line of text.split(/(?<=\n)|(?<=\r)(?!\n)/)) {
    const content = line.replace(/[\r\n]+$/, "");
    const { tokens, ruleStack } = grammar.tokenizeLine(content, state);
    state = ruleStack;
    for (const token of tokens) {
      const name = classOf(token.scopes);
      const bytes = (end) => offset + Buffer.byteLength(content.slice(0, Math.min(end, content.length)));
      if (name) {
        found.push({ start: bytes(token.startIndex), end: bytes(token.endIndex), class: name });
      }
    }
    offset += Buffer.byteLength(line);
  }
  return found;
}

const wasm = readFileSync(join(folder, "node_modules/vscode-oniguruma/release/onig.wasm"));
await oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
const path = join(folder, "syntaxes/bicinium.tmLanguage.json");
const registry = new Registry({
  onigLib: Promise.resolve({
    createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
    createOnigString: (text) => new oniguruma.OnigString(text),
  }),
  loadGrammar: async () => parseRawGrammar(readFileSync(path, "utf8"), path),
});
const grammar = await registry.loadGrammar("source.bicinium");
const texts = JSON.parse(readFileSync(0, "utf8"));
process.stdout.write(JSON.stringify(texts.map((text) => stretches(grammar, text))));
