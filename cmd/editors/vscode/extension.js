// Starts the editor server when a pattern is opened; everything else is its work.
"use strict";

const { window, workspace } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

async function activate() {
  const settings = workspace.getConfiguration("seamwright");
  const command = settings.get("path") || "seamwright";
  client = new LanguageClient(
    "seamwright",
    "Seamwright",
    { command, args: ["lsp"] },
    {
      documentSelector: [{ language: "seam" }],
      initializationOptions: { size: settings.get("size") },
      synchronize: { configurationSection: "seamwright" },
    },
  );
  try {
    await client.start();
  } catch {
    client = undefined; // it can't be stopped
    window.showErrorMessage(
      `Seamwright can't start ${command}. Patterns are colored, and nothing else, until the setting ` +
        "seamwright.path says where the program lies and the window is loaded again.",
    );
  }
}

function deactivate() {
  return client && client.stop();
}

module.exports = { activate, deactivate };
