// The line to the server: which program it is, and for what files it is asked.
import { ChildProcess, spawn } from "node:child_process";
import { existsSync } from "node:fs";
import * as vscode from "vscode";
import { LanguageClient, ShowDocumentParams, ShowDocumentResult } from "vscode-languageclient/node";

const NEVER = new vscode.CancellationTokenSource().token;
const ELSEWHERE = "Name It in the Settings";

/** What the client does in its own way. */
export interface Ways {
  /** Shows the score of a sheet. */
  showScore(sheet: string): Promise<void>;
  /** Goes to a place of a document. */
  goTo(place: ShowDocumentParams): Promise<ShowDocumentResult>;
}

/** A client that is not yet started. The settings are read anew whenever it is. */
export function connect(context: vscode.ExtensionContext, ways: Ways): LanguageClient {
  return new LanguageClient("bicinium", "Bicinium", () => run(program(context)), {
    documentSelector: [{ language: "bicinium" }, { pattern: "**/*.rulebook.toml" }],
    initializationOptions: () => options(),
    synchronize: { configurationSection: "bicinium" },
    middleware: {
      executeCommand: (command, args, next) => (command === "bicinium.showScore" ? ways.showScore(args[0]) : next(command, args)),
      window: {
        showDocument: async (place, next) => {
          const shown = place.external ? await next(place, NEVER) : await ways.goTo(place);
          return shown as ShowDocumentResult;
        },
      },
    },
  });
}

function run(program: string): Promise<ChildProcess> {
  const server = spawn(program, ["lsp"]);
  return new Promise((resolve, reject) => {
    server.once("spawn", () => resolve(server));
    server.once("error", (why) => {
      void tell(program);
      reject(why);
    });
  });
}

/** Says what to do when there is no server. */
async function tell(program: string): Promise<void> {
  const message = `There is no program "${program}" to read the sheets. Install it, or say where it is.`;
  if ((await vscode.window.showErrorMessage(message, ELSEWHERE)) === ELSEWHERE) {
    await vscode.commands.executeCommand("workbench.action.openSettings", "bicinium.server.path");
  }
}

function program(context: vscode.ExtensionContext): string {
  const named = setting("server.path");
  const name = process.platform === "win32" ? "bicinium.exe" : "bicinium";
  const inside = context.asAbsolutePath(`server/${name}`);
  return named || (existsSync(inside) ? inside : name);
}

function options(): object {
  const { rulebook, rulePages, mayUse, hints } = vscode.workspace.getConfiguration("bicinium");
  return { rulebook, rulePages, mayUse, hints };
}

function setting(name: string): string {
  return vscode.workspace.getConfiguration("bicinium").get(name, "");
}
