// The pages of the rules: text that the server gives, shown as a preview.
import * as vscode from "vscode";
import { LanguageClient } from "vscode-languageclient/node";

/** Asks the server for the text behind its own addresses. */
export class RulePages implements vscode.TextDocumentContentProvider {
  constructor(private readonly client: LanguageClient) {}

  async provideTextDocumentContent(uri: vscode.Uri): Promise<string> {
    const address = uri.toString().replace(/\.md$/, "");
    const { text } = await this.client.sendRequest<{ text: string }>("workspace/textDocumentContent", { uri: address });
    return text;
  }
}

/** Shows the page of the rule whose finding is at the cursor; asks which if there are several. */
export async function showRule(): Promise<void> {
  const rules = rulesAtCursor();
  if (rules.length === 0) {
    void vscode.window.showInformationMessage("There is no finding at the cursor.");
    return;
  }
  const rule = rules.length === 1 ? rules[0] : await vscode.window.showQuickPick(rules);
  if (rule) {
    await vscode.commands.executeCommand("markdown.showPreview", vscode.Uri.parse(`bicinium:/rules/${rule}.md`));
  }
}

function rulesAtCursor(): string[] {
  const editor = vscode.window.activeTextEditor;
  if (!editor) {
    return [];
  }
  const here = vscode.languages
    .getDiagnostics(editor.document.uri)
    .filter((finding) => finding.source === "bicinium" && finding.range.contains(editor.selection.active));
  return [...new Set(here.map((finding) => nameOf(finding.code)).filter((name) => name !== ""))];
}

function nameOf(code: vscode.Diagnostic["code"]): string {
  return String((typeof code === "object" ? code.value : code) ?? "");
}
