// The line to the server: which program it is, and for what files it is asked.
import { existsSync } from "node:fs";
import * as vscode from "vscode";
import { LanguageClient, ServerOptions } from "vscode-languageclient/node";

/** A client that is not yet started. The settings are read anew whenever it is. */
export function connect(context: vscode.ExtensionContext): LanguageClient {
  const server: ServerOptions = async () => (await import("node:child_process")).spawn(program(context), ["lsp"]);
  return new LanguageClient("bicinium", "Bicinium", server, {
    documentSelector: [{ language: "bicinium" }, { pattern: "**/*.rulebook.toml" }],
    initializationOptions: () => options(),
    synchronize: { configurationSection: "bicinium" },
  });
}

function program(context: vscode.ExtensionContext): string {
  const named = setting("server.path");
  const name = process.platform === "win32" ? "bicinium.exe" : "bicinium";
  const inside = context.asAbsolutePath(`server/${name}`);
  return named || (existsSync(inside) ? inside : name);
}

function options(): object {
  const rulePages = setting("rulePages");
  return rulePages ? { rulePages } : {};
}

function setting(name: string): string {
  return vscode.workspace.getConfiguration("bicinium").get(name, "");
}
