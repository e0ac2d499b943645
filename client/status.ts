// How it stands with the job that is open, in the status bar: the worst first. A click leads to what stands in the way.
import * as vscode from "vscode";
import type { Standing } from "../server/service.ts";
import type { Ask } from "./report-page.ts";

export interface StatusItem extends vscode.Disposable {
  /** The sheet may say something else now. */
  changed(): void;
}

/** So long after the last edit nobody types. */
const quiet = 400;

export function createStatusItem(ask: Ask): StatusItem {
  const item = vscode.window.createStatusBarItem("splitpin.standing", vscode.StatusBarAlignment.Left, 10);
  item.name = "Job Sheet";
  item.command = "splitpin.showRelease";
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = 0;

  async function show(): Promise<void> {
    const document = vscode.window.activeTextEditor?.document;
    if (document?.languageId !== "jobsheet") {
      item.hide();
      return;
    }
    const mine = ++asked;
    const standing = (await ask("splitpin.standing", document.uri.toString())) as Standing | null | undefined;
    if (mine !== asked) return;
    if (!standing) {
      item.hide();
      return;
    }
    const unsafe = standing.unsafe.length > 0;
    item.text = `$(${unsafe ? "error" : standing.open === 0 ? "pass" : "checklist"}) ${standing.words}`;
    item.tooltip = [...standing.unsafe.slice(0, 5).map((it) => it.text), ...standing.live.map((it) => it.text), "Click for what stands in the way."].join("\n");
    item.backgroundColor = unsafe ? new vscode.ThemeColor("statusBarItem.errorBackground") : undefined;
    item.show();
  }

  function changed(): void {
    clearTimeout(timer);
    timer = setTimeout(() => void show().catch(() => item.hide()), quiet);
  }

  const listening = vscode.Disposable.from(
    item,
    vscode.window.onDidChangeActiveTextEditor(changed),
    vscode.workspace.onDidChangeTextDocument(({ document }) => document.languageId === "jobsheet" && changed()),
  );
  changed();
  return {
    changed,
    dispose() {
      clearTimeout(timer);
      listening.dispose();
    },
  };
}
