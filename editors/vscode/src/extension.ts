// What VS Code starts: the server, the commands, the pages of the rules. It must not know any music.
import * as vscode from "vscode";
import { LanguageClient } from "vscode-languageclient/node";

import { connect } from "./client";
import { newSheet } from "./newSheet";
import { RulePages, showRule } from "./rulePages";
import { Scores, goTo } from "./score";

let client: LanguageClient | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const running: LanguageClient = connect(context, {
    showScore: (sheet) => scores.open(vscode.Uri.parse(sheet)),
    goTo: (place) => goTo(place, running),
  });
  const scores = new Scores(running);
  client = running;
  const commands: [string, () => unknown][] = [
    ["bicinium.newSheet", newSheet],
    ["bicinium.showRule", showRule],
    ["bicinium.openScore", () => scores.open()],
    ["bicinium.restart", () => running.restart()],
    ["bicinium.showLog", () => running.outputChannel.show()],
  ];
  context.subscriptions.push(
    ...commands.map(([name, act]) => vscode.commands.registerCommand(name, act)),
    vscode.workspace.registerTextDocumentContentProvider("bicinium", new RulePages(running)),
    vscode.window.onDidChangeTextEditorSelection((moved) => scores.point(moved)),
    vscode.workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration("bicinium.server")) {
        void running.restart();
      }
    }),
  );
  await running.start();
}

export function deactivate(): Promise<void> | undefined {
  return client?.stop();
}
