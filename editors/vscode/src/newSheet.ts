// A sheet to begin with: a short cantus, and a counterpoint with one fault to mend.
import * as vscode from "vscode";

const SHEET = `// A sheet to begin with
key C major

cantus first-song
  line | C4 | D4 | F4 | E4 | D4 | C4 |

exercise "Note against note, above"
  species 1
  soprano counter           | G4 | A4 | A4 | G4 | B4 | C5 |
  tenor   cantus first-song | C4 | D4 | F4 | E4 | D4 | C4 |
`;

/** Opens a new sheet beside no file. */
export async function newSheet(): Promise<void> {
  const document = await vscode.workspace.openTextDocument({ language: "bicinium", content: SHEET });
  await vscode.window.showTextDocument(document);
}
