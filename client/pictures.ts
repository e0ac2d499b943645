// A picture dropped or pasted into a sheet is saved beside it, and its `photo` line written below the line that it was given to.
// Invariant: no file is written over; the sheet names the picture by its path from there; no line is split, and what was selected stays.
import * as vscode from "vscode";

const endings: Readonly<Record<string, string>> = { "image/png": "png", "image/jpeg": "jpg", "image/webp": "webp" };

interface Picture {
  readonly name: string;
  readonly ending: string;
  data(): Promise<Uint8Array>;
}

export function takePictures(): vscode.Disposable {
  const selector = { language: "jobsheet" };
  const listening = [
    vscode.languages.registerDocumentDropEditProvider(selector, {
      async provideDocumentDropEdits(document, position, transfer) {
        const written = await saved(document, await picturesIn(transfer));
        if (written === undefined) return undefined;
        const edit = new vscode.DocumentDropEdit("");
        edit.additionalEdit = below(document, position.line, written);
        return edit;
      },
    }),
  ];
  // Pasting came with a later VS Code than the oldest that is promised.
  const later = vscode as unknown as {
    readonly DocumentPasteEdit?: new (text: string, title: string, kind: unknown) => { additionalEdit?: vscode.WorkspaceEdit };
    readonly DocumentDropOrPasteEditKind?: { readonly Empty: { append(...parts: string[]): unknown } };
  };
  const languages = vscode.languages as unknown as {
    registerDocumentPasteEditProvider?(selector: unknown, provider: unknown, about: unknown): vscode.Disposable;
  };
  const { DocumentPasteEdit, DocumentDropOrPasteEditKind } = later;
  if (DocumentPasteEdit !== undefined && DocumentDropOrPasteEditKind !== undefined && languages.registerDocumentPasteEditProvider !== undefined) {
    const kind = DocumentDropOrPasteEditKind.Empty.append("splitpin", "photo");
    const provider = {
      async provideDocumentPasteEdits(document: vscode.TextDocument, ranges: readonly vscode.Range[], transfer: vscode.DataTransfer) {
        const [range] = ranges;
        // At several cursors the same picture would be written several times.
        const written = range === undefined || ranges.length > 1 ? undefined : await saved(document, await picturesIn(transfer));
        if (range === undefined || written === undefined) return undefined;
        const edit = new DocumentPasteEdit(document.getText(range), "Save the picture and write its photo line", kind);
        edit.additionalEdit = below(document, range.end.line, written);
        return [edit];
      },
    };
    listening.push(languages.registerDocumentPasteEditProvider(selector, provider, { providedPasteEditKinds: [kind], pasteMimeTypes: ["image/*", "files"] }));
  }
  return vscode.Disposable.from(...listening);
}

/** The lines below this one; in its place where it is blank. */
function below(document: vscode.TextDocument, line: number, lines: readonly string[]): vscode.WorkspaceEdit {
  const edit = new vscode.WorkspaceEdit();
  const { text, range } = document.lineAt(line);
  if (text.trim() === "") edit.replace(document.uri, range, lines.join("\n"));
  else edit.insert(document.uri, range.end, `\n${lines.join("\n")}`);
  return edit;
}

async function picturesIn(transfer: vscode.DataTransfer): Promise<Picture[]> {
  const out: Picture[] = [];
  for (const [type, item] of transfer) {
    const file = item.asFile();
    const ending =
      endings[type] ??
      endings[
        `image/${/\.(png|jpe?g|webp)$/i
          .exec(file?.name ?? "")?.[1]
          ?.toLowerCase()
          .replace("jpg", "jpeg")}`
      ];
    if (file !== undefined && ending !== undefined) out.push({ name: file.name, ending, data: async () => file.data() });
  }
  return out;
}

/** The lines to be written; undefined where nothing is a picture, or the sheet is in no folder. */
async function saved(document: vscode.TextDocument, pictures: readonly Picture[]): Promise<readonly string[] | undefined> {
  if (pictures.length === 0 || document.uri.scheme === "untitled") return undefined;
  const told = vscode.workspace.getConfiguration("splitpin", document.uri).get<string>("photoFolder") ?? "photos";
  // A folder beside the sheet, and none that a setting of a stranger's workspace leads elsewhere.
  const folder = told
    .split(/[/\\]/)
    .filter((it) => it !== "" && it !== "." && it !== "..")
    .join("/");
  const here = vscode.Uri.joinPath(document.uri, "..");
  const lines: string[] = [];
  for (const picture of pictures) {
    const name = await freeName(vscode.Uri.joinPath(here, folder), picture);
    await vscode.workspace.fs.writeFile(vscode.Uri.joinPath(here, folder, name), await picture.data());
    lines.push(`  photo "${folder === "" ? "" : `${folder}/`}${name}"`);
  }
  return lines;
}

async function freeName(folder: vscode.Uri, { name, ending }: Picture): Promise<string> {
  const stem =
    name
      .replace(/\.[^.]*$/, "")
      .replace(/[^\p{L}\p{N}_-]+/gu, "-")
      .replace(/^-+|-+$/g, "") || "photo";
  for (let i = 1; ; i++) {
    const tried = `${stem}${i === 1 ? "" : `-${i}`}.${ending}`;
    try {
      await vscode.workspace.fs.stat(vscode.Uri.joinPath(folder, tried));
    } catch {
      return tried;
    }
  }
}
