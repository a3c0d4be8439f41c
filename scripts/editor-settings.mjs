/**
 * The settings with which VS Code completes and checks the documents that people write by hand, without a network and without set-up.
 *
 * Every document names its schema in `$schema`, and the editor takes that address before any name of a file; nothing answers there.
 * So the settings hold the schemas themselves under their addresses, which the editor then does not ask for.
 *
 * They hold them with their texts where its language service looks for them: it lets the description of a definition win over the one
 * beside a reference to it, save where that is a `markdownDescription`, and a figure that is all of its grounds goes by their name.
 */
import { documents } from '../packages/schema/source/index.js';

/** Documents that people write, and the names of their files. Results of commands are written by nobody. */
const WRITTEN = {
  species: ['*.species.json'],
  situation: ['*.situation.json'],
  bibliography: ['bibliography.json', '*.bibliography.json'],
  'stand-ins': ['stand-ins.json', '*.stand-ins.json'],
};

/** Definitions that only say what others have in common. */
const COMMON = ['grounds', 'band'];

/** A schema with the same constraints, and its texts where the editor finds them. */
function forEditor(node) {
  if (Array.isArray(node)) return node.map(forEditor);
  if (node === null || typeof node !== 'object') return node;
  const { $ref, description, ...rest } = Object.fromEntries(Object.entries(node).map(([key, value]) => [key, forEditor(value)]));
  if ($ref !== undefined) return { ...rest, $ref, ...(description === undefined ? {} : { markdownDescription: description }) };
  return description === undefined ? rest : { ...rest, description };
}

function editorSchema(schema) {
  const { $defs, ...rest } = forEditor(schema);
  const definitions = Object.entries($defs).map(([name, { title, description, ...definition }]) => [
    name,
    COMMON.includes(name) ? definition : { title, description, ...definition },
  ]);
  return { ...rest, $defs: Object.fromEntries(definitions) };
}

const entryText = ([name, fileMatch]) =>
  `    {\n      "fileMatch": ${JSON.stringify(fileMatch)},\n      "url": ${JSON.stringify(documents[name].$id)},\n      "schema": ${JSON.stringify(editorSchema(documents[name]))}\n    }`;

/** The text of `.vscode/settings.json`. */
export const editorSettings = () => `{\n  "json.schemas": [\n${Object.entries(WRITTEN).map(entryText).join(',\n')}\n  ]\n}\n`;
