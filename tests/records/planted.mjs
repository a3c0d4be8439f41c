/**
 * Plants a mistake into a copy of the sample and looks at it as `commensal records check` does: text, schema, plausibility and form, then all
 * records together. The pages of the documentation take their examples from here, the tests what must be found. What it calls is handed in,
 * because tests run sources and pages what was built.
 */
import { patched } from '../../packages/schema/tools/patch.mjs';

/** An entry of a list by something it says: its place, so that a mistake stays where it was meant when a record grows. */
const placed = (pointer, document) => {
  let here = document;
  return pointer
    .split('/')
    .map((key) => {
      const said = /^\{(.+)\}$/.exec(key)?.[1];
      const found = said === undefined ? key : String(here.findIndex((item) => JSON.stringify(item).includes(JSON.stringify(said))));
      if (found === '-1') throw new Error(`planted: nothing says "${said}" in ${pointer}`);
      if (key !== '') here = here?.[found];
      return found;
    })
    .join('/');
};

/** The text of a file with the edit done to it. In form, save for what is edited in the text itself. */
function edited(text, edit, { recordForm, jsonText }) {
  if (edit.empty) return '';
  if (edit.text) {
    const [from, to] = edit.text;
    if (!text.includes(from)) throw new Error(`planted: ${edit.record} has no ${from}`);
    return text.replaceAll(from, to);
  }
  const document = JSON.parse(text);
  const operations = edit.patch.map((operation) => ({ ...operation, path: placed(operation.path, document) }));
  return recordForm(jsonText(patched(document, operations)), { fix: true }).text;
}

/** The files with the edits done to them, those that are gone, and the bibliography. */
function planted({ edits }, sample, tools) {
  const texts = new Map();
  const gone = new Set();
  let { bibliography } = sample;
  for (const edit of edits) {
    if (edit.bibliography) {
      bibliography = [edit.bibliography, ...bibliography];
      continue;
    }
    const record = sample.records.find(({ id }) => id === edit.record);
    const path = tools.recordPath(record);
    const text = texts.get(path) ?? tools.jsonText(record);
    if (edit.moveTo) gone.add(path);
    texts.set(edit.copyTo ?? edit.moveTo ?? path, edit.copyTo || edit.moveTo ? text : edited(text, edit, tools));
  }
  return { texts, gone, bibliography };
}

/** The file in which a mistake must be found. */
export const fileOf = ({ file, of, edits }, sample, { recordPath }) =>
  file ?? recordPath(sample.records.find(({ id }) => id === (of ?? edits.at(-1).record)));

/** Where a mistake must be found: its pointer in the document as it was edited. */
export function pointerOf(mistake, sample, tools) {
  if (!mistake.pointer.includes('{')) return mistake.pointer;
  const file = fileOf(mistake, sample, tools);
  const text = planted(mistake, sample, tools).texts.get(file);
  return placed(
    mistake.pointer,
    text === undefined ? sample.records.find((record) => tools.recordPath(record) === file) : JSON.parse(text),
  );
}

const read = (text, file, { parseJson }) => {
  try {
    return { parsed: parseJson(text, file) };
  } catch (error) {
    if (error.problems === undefined) throw error;
    return { problems: error.problems };
  }
};

/** What is found once the mistakes are made; with none, what the sample itself has between its records. */
export function foundIn(mistake, sample, tools) {
  const { texts, gone, bibliography } = planted(mistake, sample, tools);
  const inRecords = new Set(sample.records.flatMap(({ sources }) => sources));
  const cited = sample.bibliography.map(({ id }) => id).filter((id) => !inRecords.has(id));
  const context = { bibliography, standIns: sample.standIns, cited };
  const problems = [];
  const otherIds = [];
  // The others are as they are in the sample, which is looked at record by record elsewhere.
  const entries = sample.records
    .map((record) => ({ file: tools.recordPath(record), record }))
    .filter(({ file }) => !texts.has(file) && !gone.has(file));
  for (const [file, text] of texts) {
    const { parsed, problems: unread } = read(text, file, tools);
    if (parsed === undefined) {
      problems.push(...unread);
      otherIds.push(tools.idOfFile(file));
      continue;
    }
    problems.push(...tools.speciesProblems(parsed.data).map(parsed.locate));
    if (!tools.validate(parsed.data)) {
      otherIds.push(tools.idOfFile(file));
      continue;
    }
    entries.push({ file, record: parsed.data });
    problems.push(
      ...tools.recordProblems(parsed.data, context).map(parsed.locate),
      ...tools.formProblems(text).map((problem) => ({ ...problem, file })),
    );
  }
  return [...problems, ...tools.collectionProblems(entries, { ...context, otherIds })];
}
