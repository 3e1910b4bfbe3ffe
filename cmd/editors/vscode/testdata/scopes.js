// Writes boat.scopes: every colored run of boat.seam with its innermost scope, as
// the engine of Visual Studio Code sees it. In a folder of its own:
//   npm install vscode-textmate@9 vscode-oniguruma@2
//   NODE_PATH=node_modules node .../testdata/scopes.js > .../testdata/boat.scopes
"use strict";
const fs = require("fs");
const path = require("path");
const { Registry, parseRawGrammar, INITIAL } = require("vscode-textmate");
const oniguruma = require("vscode-oniguruma");

async function main() {
  const wasm = fs.readFileSync(path.join(path.dirname(require.resolve("vscode-oniguruma")), "onig.wasm"));
  await oniguruma.loadWASM(wasm.buffer);
  const file = path.join(__dirname, "../syntaxes/seam.tmLanguage.json");
  const registry = new Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => parseRawGrammar(fs.readFileSync(file, "utf8"), file),
  });
  const grammar = await registry.loadGrammar("source.seam");
  let state = INITIAL;
  for (const line of fs.readFileSync(path.join(__dirname, "boat.seam"), "utf8").split("\n")) {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    const runs = [];
    for (const t of tokens) {
      const scope = t.scopes.length > 1 ? t.scopes[t.scopes.length - 1] : "";
      const text = line.slice(t.startIndex, t.endIndex);
      if (runs.length && runs[runs.length - 1][0] === scope) runs[runs.length - 1][1] += text;
      else runs.push([scope, text]);
    }
    for (const [scope, text] of runs) if (scope && text) console.log(scope + "\t" + text);
  }
}
main();
