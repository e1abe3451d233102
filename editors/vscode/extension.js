// Starts the server and hands it every file of ours; all the rest is the server's.

const vscode = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

/** @type {LanguageClient | undefined} */
let client;

function activate() {
  const path = vscode.workspace.getConfiguration("plumbhook").get("server.path", "plumbhook");
  client = new LanguageClient(
    "plumbhook",
    "Plumbhook",
    { command: path, args: ["lsp"] },
    { documentSelector: [{ language: "plumbhook", scheme: "file" }] },
  );
  // The client itself shows why; this adds what it means and what mends it.
  return client.start().catch(() => {
    vscode.window.showErrorMessage(
      `\`${path} lsp\` does not start, so nothing is checked. ` +
        "Name the program in the setting `plumbhook.server.path` and reload the window.",
    );
  });
}

function deactivate() {
  return client?.stop();
}

module.exports = { activate, deactivate };
