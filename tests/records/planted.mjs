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

/** The files of the sample, by path below the folder of records, with the edits done, and the bibliography. */
function planted({ edits }, sample, tools) {
  const texts = new Map(sample.records.map((record) => [tools.recordPath(record), tools.jsonText(record)]));
  let { bibliography } = sample;
  for (const edit of edits) {
    if (edit.bibliography) {
      bibliography = [edit.bibliography, ...bibliography];
      continue;
    }
    const path = tools.recordPath(sample.records.find(({ id }) => id === edit.record));
    const text = texts.get(path);
    if (edit.copyTo) texts.set(edit.copyTo, text);
    else if (edit.moveTo) {
      texts.delete(path);
      texts.set(edit.moveTo, text);
    } else texts.set(path, edited(text, edit, tools));
  }
  return { texts, bibliography };
}

/** The file in which a mistake must be found. */
export const fileOf = ({ file, of, edits }, sample, { recordPath }) =>
  file ?? recordPath(sample.records.find(({ id }) => id === (of ?? edits.at(-1).record)));

/** Where a mistake must be found: its pointer in the document as it was edited. */
export function pointerOf(mistake, sample, tools) {
  if (!mistake.pointer.includes('{')) return mistake.pointer;
  return placed(mistake.pointer, JSON.parse(planted(mistake, sample, tools).texts.get(fileOf(mistake, sample, tools))));
}

const read = (text, file, { parseJson }) => {
  try {
    return { parsed: parseJson(text, file) };
  } catch (error) {
    if (error.problems === undefined) throw error;
    return { problems: error.problems };
  }
};

/** What is found once the mistakes are made; with none, what the sample itself has. */
export function foundIn(mistake, sample, tools) {
  const { texts, bibliography } = planted(mistake, sample, tools);
  const inRecords = new Set(sample.records.flatMap(({ sources }) => sources));
  const cited = sample.bibliography.map(({ id }) => id).filter((id) => !inRecords.has(id));
  const context = { bibliography, standIns: sample.standIns, cited };
  const touched = new Set(
    mistake.edits.flatMap((edit) => (edit.bibliography ? [] : [edit.copyTo ?? edit.moveTo ?? fileOf({ edits: [edit] }, sample, tools)])),
  );
  const problems = [];
  const entries = [];
  const otherIds = [];
  for (const [file, text] of texts) {
    const { parsed, problems: unread } = read(text, file, tools);
    if (parsed === undefined) {
      problems.push(...unread);
      otherIds.push(tools.idOfFile(file));
      continue;
    }
    const isValid = tools.validate(parsed.data);
    if (isValid) entries.push({ file, record: parsed.data });
    else otherIds.push(tools.idOfFile(file));
    // The others are as they are in the sample, which is looked at by itself.
    if (!touched.has(file)) continue;
    const own = tools.speciesProblems(parsed.data).map(parsed.locate);
    problems.push(...own);
    if (isValid)
      problems.push(
        ...tools.recordProblems(parsed.data, context).map(parsed.locate),
        ...tools.formProblems(text).map((problem) => ({ ...problem, file })),
      );
  }
  return [...problems, ...tools.collectionProblems(entries, { ...context, otherIds })];
}
