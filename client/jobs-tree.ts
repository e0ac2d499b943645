// The tree of jobs in the side bar: each sheet with how it stands, and under it what is unsafe, late, asked and due.
// Invariant: whatever is shown was worked out by the server; it is asked when the view is seen and a sheet was saved or checked.
import * as vscode from "vscode";
import type { Standing } from "../server/service.ts";
import type { Ask } from "./report-page.ts";

type Matter = Standing["unsafe"][number];

interface Job {
  readonly uri: string;
  readonly path: string;
  readonly standing: Standing;
  readonly files: Readonly<Record<string, string>>;
}

type Node =
  | { readonly kind: "job"; readonly job: Job }
  | { readonly kind: "group"; readonly job: Job; readonly label: string; readonly icon: string; readonly matters: readonly Matter[] }
  | { readonly kind: "matter"; readonly job: Job; readonly matter: Matter };

export interface JobsTree extends vscode.Disposable {
  /** The sheets may say something else now. */
  changed(): void;
}

export function createJobsTree(ask: Ask): JobsTree {
  const changes = new vscode.EventEmitter<undefined>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const view = vscode.window.createTreeView<Node>("splitpin.jobs", {
    showCollapseAll: true,
    treeDataProvider: {
      onDidChangeTreeData: changes.event,
      getTreeItem: itemOf,
      async getChildren(node) {
        if (node === undefined) return ((await ask("splitpin.jobs", "")) as readonly Job[]).map((job): Node => ({ kind: "job", job }));
        if (node.kind === "job") return groupsOf(node.job);
        return node.kind === "group" ? node.matters.map((matter): Node => ({ kind: "matter", job: node.job, matter })) : [];
      },
    },
  });
  const changed = () => {
    if (!view.visible) return;
    clearTimeout(timer);
    timer = setTimeout(() => changes.fire(undefined), 1000);
  };
  const listening = vscode.Disposable.from(
    view,
    vscode.workspace.onDidSaveTextDocument((it) => it.languageId === "jobsheet" && changed()),
    vscode.commands.registerCommand("splitpin.refreshJobs", () => changes.fire(undefined)),
    vscode.commands.registerCommand("splitpin.openLine", openLine),
  );
  return {
    changed,
    dispose() {
      clearTimeout(timer);
      listening.dispose();
    },
  };
}

function groupsOf(job: Job): Node[] {
  const { unsafe, live, late, questions, due } = job.standing;
  const groups: [string, string, readonly Matter[]][] = [
    ["Unsafe", "error", unsafe],
    ["Live hazards", "flame", live],
    ["Parcels late", "package", late],
    ["Questions open", "question", questions],
    ["Gauges and rechecks due", "calendar", due],
  ];
  return groups.filter(([, , matters]) => matters.length > 0).map(([label, icon, matters]) => ({ kind: "group", job, label, icon, matters }));
}

function itemOf(node: Node): vscode.TreeItem {
  if (node.kind === "group") {
    const item = new vscode.TreeItem(`${node.label} (${node.matters.length})`, vscode.TreeItemCollapsibleState.Collapsed);
    item.iconPath = new vscode.ThemeIcon(node.icon);
    return item;
  }
  if (node.kind === "matter") {
    const item = new vscode.TreeItem(node.matter.text);
    item.description = `line ${node.matter.line}`;
    item.tooltip = node.matter.text;
    item.command = { command: "splitpin.openLine", title: "Open the Line", arguments: [node.job.files[node.matter.file] ?? node.job.uri, node.matter.line] };
    return item;
  }
  const { standing, uri, path } = node.job;
  const some = groupsOf(node.job).length > 0;
  const item = new vscode.TreeItem(
    path.replace(/^.*\//, "").replace(/\.jobsheet$/, ""),
    some ? vscode.TreeItemCollapsibleState.Collapsed : vscode.TreeItemCollapsibleState.None,
  );
  item.description = standing.words;
  item.tooltip = [standing.title, standing.machine, path, standing.words].filter((it) => it !== null).join("\n");
  item.iconPath = new vscode.ThemeIcon(standing.unsafe.length > 0 ? "error" : standing.released && standing.open === 0 ? "pass" : "circle-outline");
  item.command = { command: "splitpin.openLine", title: "Open the Sheet", arguments: [uri, 1] };
  return item;
}

async function openLine(uri: unknown, line: unknown): Promise<void> {
  if (typeof uri !== "string" || typeof line !== "number") return;
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri, true));
  const at = document.lineAt(Math.max(0, Math.min(line - 1, document.lineCount - 1))).range.start;
  await vscode.window.showTextDocument(document, { selection: new vscode.Range(at, at) });
}
