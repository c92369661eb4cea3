// Packs the extension: `npm run package` without a server, `npm run package -- PROGRAM` with it inside.
import { execFileSync } from "node:child_process";
import { basename, join } from "node:path";
import { copyFileSync, mkdirSync, rmSync } from "node:fs";

const [program] = process.argv.slice(2);
rmSync("server", { recursive: true, force: true });
if (program) {
  mkdirSync("server");
  copyFileSync(program, join("server", basename(program)));
}
copyFileSync(join("..", "..", "LICENSE"), "LICENSE");

const vsce = join("node_modules", "@vscode", "vsce", "vsce");
const target = program ? ["--target", `${process.platform}-${process.arch}`] : [];
const options = ["package", "--no-dependencies", "--allow-missing-repository", "--no-rewrite-relative-links", "--out", "bicinium.vsix", ...target];
execFileSync(process.execPath, [vsce, ...options], { stdio: "inherit" });
