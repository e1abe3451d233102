// Runs our extension in Node with a stand-in for the editor, and prints what it would start and for which files.

const Module = require("node:module");

const [extension, ...set] = process.argv.slice(2);
const settings = Object.fromEntries(set.map((pair) => pair.split("=")));
const told = { errors: [] };

class LanguageClient {
  constructor(id, name, server, client) {
    Object.assign(told, { id, server, client });
  }
  start() {
    return server_is_there ? Promise.resolve() : Promise.reject("no such program");
  }
  stop() {
    told.stopped = true;
  }
}
const server_is_there = settings["there"] !== "no";

const vscode = {
  workspace: {
    getConfiguration: (section) => ({
      get: (key, otherwise) => settings[`${section}.${key}`] ?? otherwise,
    }),
  },
  window: { showErrorMessage: (text) => told.errors.push(text) },
};

const load = Module._load;
Module._load = function (name, ...rest) {
  if (name === "vscode") return vscode;
  if (name === "vscode-languageclient/node") return { LanguageClient };
  return load.call(this, name, ...rest);
};

const ours = require(extension);
Promise.resolve(ours.activate())
  .then(() => ours.deactivate())
  .then(() => console.log(JSON.stringify(told)));
