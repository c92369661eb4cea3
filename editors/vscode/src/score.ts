// The score of a sheet in a panel beside it: the page of the server in a frame. Notes that are chosen there
// are selected in the editor, and the note at the cursor is shown there. It must not know what is on the page.
import * as vscode from "vscode";
import { LanguageClient, ShowDocumentParams, ShowDocumentResult } from "vscode-languageclient/node";

/** The panels, one for each sheet at most. */
export class Scores {
  private readonly panels = new Map<string, vscode.WebviewPanel>();

  constructor(private readonly client: LanguageClient) {}

  /** Opens the score of a sheet, or brings it to the front. */
  async open(sheet = vscode.window.activeTextEditor?.document.uri): Promise<void> {
    if (!sheet) {
      return;
    }
    const known = this.panels.get(sheet.toString());
    if (known) {
      known.reveal(undefined, true);
      return;
    }
    const address = await this.client.sendRequest<string | null>("workspace/executeCommand", {
      command: "bicinium.scoreAddress",
      arguments: [this.client.code2ProtocolConverter.asUri(sheet)],
    });
    if (address) {
      const page = await vscode.env.asExternalUri(vscode.Uri.parse(`${address}panel`));
      this.show(sheet, page.toString(true));
    }
  }

  /** Tells the server where the cursor is. */
  point({ textEditor: { document, selection } }: vscode.TextEditorSelectionChangeEvent): void {
    if (document.languageId === "bicinium") {
      const at = this.client.code2ProtocolConverter.asTextDocumentPositionParams(document, selection.active);
      void this.client.sendNotification("bicinium/cursor", at);
    }
  }

  private show(sheet: vscode.Uri, page: string): void {
    const title = `Score of ${sheet.path.split("/").pop()}`;
    const where = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    const panel = vscode.window.createWebviewPanel("bicinium.score", title, where, {
      enableScripts: true,
      localResourceRoots: [],
      retainContextWhenHidden: true,
    });
    panel.webview.html = frame(page, title);
    panel.onDidDispose(() => this.panels.delete(sheet.toString()));
    this.panels.set(sheet.toString(), panel);
  }
}

/** Goes to a place of a document where it is open already, and not where the score is. */
export async function goTo({ uri, takeFocus, selection }: ShowDocumentParams, client: LanguageClient): Promise<ShowDocumentResult> {
  const sheet = client.protocol2CodeConverter.asUri(uri);
  const isMeant = (editor: vscode.TextEditor) => editor.document.uri.toString() === sheet.toString();
  const viewColumn = vscode.window.visibleTextEditors.find(isMeant)?.viewColumn ?? vscode.ViewColumn.One;
  const range = selection && client.protocol2CodeConverter.asRange(selection);
  await vscode.window.showTextDocument(sheet, { viewColumn, selection: range, preserveFocus: !takeFocus });
  return { success: true };
}

/** A document in which nothing but the page may run. */
function frame(page: string, title: string): string {
  const { origin } = new URL(page);
  const look = "html, body { height: 100%; margin: 0; padding: 0; overflow: hidden } iframe { border: 0; width: 100%; height: 100% }";
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; frame-src ${origin}; style-src 'nonce-look'">
<title>${escaped(title)}</title>
<style nonce="look">${look}</style>
<iframe src="${escaped(page)}" title="${escaped(title)}" allow="autoplay"></iframe>
</html>`;
}

function escaped(text: string): string {
  const names: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
  return text.replace(/[&<>"]/g, (sign) => names[sign]);
}
