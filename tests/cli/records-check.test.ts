/** `commensal records check` as it is built: everything is found, listed in order, and printed in each format. */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { RECORD_CODES } from '@commensal/records';
import { type RecordsCheck, recordsCheckProblems } from '@commensal/schema';
import { bibliography, standIns } from '@commensal/species-sample';
import { Ajv } from 'ajv';
import { afterEach, describe, expect, test } from 'vitest';
import { root } from '../support/repository.js';
import { bundle, commensal, folder, placesIn, REFUSED, unprivileged } from './command.js';
import { inMillimetres, put, putMany, putRecord, sampleRecord, textOfRecord } from './records.js';

const check = (...args: string[]) => commensal(['records', 'check', ...args]);
/** Code, line and column of each problem. */
const problemsIn = (out: string): [string, number | undefined, number | undefined][] =>
  (JSON.parse(out) as RecordsCheck).problems.map(({ code, line, column }) => [code, line, column]);

const only = (...args: string[]) => problemsIn(check(...args, '--format', 'json').out);

let places = 0;
const fresh = (): string => {
  places += 1;
  return `set-${places}`;
};

/** A folder with every sort of file in it. */
const mixed = fresh();
putRecord(mixed, 'ecsenius-bicolor');
const negative = putRecord(mixed, 'liopropoma-rubre', (text) => text.replace(/"value": (?=\d)/, '"value": -'));
const crlf = putRecord(mixed, 'meiacanthus-grammistes', (text) => inMillimetres(text).replaceAll('\n', '\r\n'));
const twice = putRecord(mixed, 'zebrasoma-flavescens', (text) => text.replace('"addedIn"', '"id": "zebrasoma-flavescens",\n  "addedIn"'));
put(`${mixed}/empty.species.json`, '');
put(`${mixed}/broken.species.json`, '{\n  "id": "broken",\n}\n');
put(`${mixed}/latin.species.json`, Buffer.from('{"id": "caf\xe9"}', 'latin1'));
put(`${mixed}/notes.json`, 'no record');
symlinkSync('nowhere', path.join(folder, mixed, 'dangling.species.json'));
symlinkSync('self.species.json', path.join(folder, mixed, 'self.species.json'));

describe('records check', () => {
  test('finds nothing in the sample', () => {
    const { code, out, err } = commensal(['records', 'check', '--strict'], '', root);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^\d+ records, no problem\.\n$/);
  });

  test('lists all that is wrong in all files, in the order of file, line and column', () => {
    const { code, out, err } = check(mixed, '--format', 'json');
    expect({ code, err }).toEqual({ code: 1, err: '' });
    const report: RecordsCheck = JSON.parse(out);
    expect(recordsCheckProblems(report)).toEqual([]);
    expect(report.records).toBe(9);
    const told = report.problems.map(
      ({ file, line, code: each, level }) => `${file.slice(mixed.length + 1)}:${line ?? ''} ${each} ${level}`,
    );
    const line = (file: string, text: string): number =>
      readFileSync(path.join(folder, file), 'utf8')
        .split('\n')
        .findIndex((each) => each.includes(text)) + 1;
    expect(told).toEqual([
      `acanthuridae/zebrasoma-flavescens.species.json:${line(twice, '"addedIn"') - 1} duplicate-key error`,
      'blenniidae/meiacanthus-grammistes.species.json:1 spacing warning',
      `blenniidae/meiacanthus-grammistes.species.json:${line(crlf, '"mm"')} unit-not-canonical warning`,
      'broken.species.json:3 not-json error',
      'dangling.species.json: no-such-file error',
      'empty.species.json: empty-file error',
      'latin.species.json: not-utf-8 error',
      'self.species.json: unreadable error',
      `serranidae/liopropoma-rubre.species.json:${line(negative, '"value": -')} too-small error`,
    ]);
    expect(report.summary).toEqual({ error: 7, warning: 2 });
    for (const { code: each, help } of report.problems) expect(help).toBe(`https://commensal.example/docs/problems/${each}`);
  });

  test('says the same as text, with what was found, what is allowed, what to do and a page', () => {
    const { code, out } = check(mixed);
    expect(code).toBe(1);
    expect(out).toContain(
      [
        `${mixed}/empty.species.json  empty-file`,
        '  the file is empty; it must hold a document in JSON.',
        '  Fill it, or name another file.',
        '  https://commensal.example/docs/problems/empty-file',
        '',
      ].join('\n'),
    );
    expect(placesIn(out).filter((line) => line.includes(mixed))).toHaveLength(9);
    expect(out).toMatch(/\n\n9 records, 9 problems: 7 errors, 2 warnings\.\n$/);
    expect(out).toContain('unit-not-canonical (warning)');
  });

  test('exits with 1 for warnings only when told to', () => {
    const place = fresh();
    putRecord(place, 'ecsenius-bicolor', (text) => text.trimEnd());
    expect(check(place).code).toBe(0);
    expect(check(place, '--strict').code).toBe(1);
    expect(check(place).out).toContain('1 record, 1 problem: 0 errors, 1 warning.');
  });

  test('knows every code it gives', () => {
    const report: RecordsCheck = JSON.parse(check(mixed, '--format', 'json').out);
    for (const { code } of report.problems) expect(Object.keys(RECORD_CODES)).toContain(code);
  });

  test.each<[string, (text: string) => string | Buffer, [string, number, number][]]>([
    ['a byte order mark', (text) => `\uFEFF${text}`, [['spacing', 1, 1]]],
    ['CR LF', (text) => text.replaceAll('\n', '\r\n'), [['spacing', 1, 2]]],
    ['CR', (text) => text.replaceAll('\n', '\r'), [['spacing', 1, 2]]],
    ['a duplicate under another spelling', (text) => text.replace('"addedIn"', '"\\u0069d": "x",\n  "addedIn"'), [['duplicate-key', 4, 3]]],
    [
      'two duplicates',
      (text) => text.replace('"addedIn"', '"id": 1, "id": 2,\n  "addedIn"'),
      [
        ['duplicate-key', 4, 3],
        ['duplicate-key', 4, 12],
      ],
    ],
    ['a comment', (text) => `// mine\n${text}`, [['not-json', 1, 1]]],
    ['a comma too many', (text) => text.replace(/\n}\n$/, ',\n}\n'), [['not-json', -1, 1]]],
    ['brackets without end', () => '['.repeat(100_000), [['not-json', 1, 100_000]]],
    ['brackets deeper than any stack', () => `${'['.repeat(100_000)}${']'.repeat(100_000)}`, [['not-json', 0, 0]]],
    ['a list', () => '[]\n', [['wrong-type', 1, 1]]],
    ['nothing but white space', () => ' \n', [['empty-file', 0, 0]]],
    ['a byte of zero', (text) => text.replace('ecsenius', 'ecs\u0000enius'), [['not-json', 3, 13]]],
  ])('%s', (_, spoil, expected) => {
    const text = spoil(textOfRecord(sampleRecord()));
    const name = put(`${fresh()}/blenniidae/ecsenius-bicolor.species.json`, text);
    const found = only(name);
    const last = String(text).split('\n').length - 1;
    const wanted = expected.map(([code, line, column]) => [code, line === 0 ? undefined : line < 0 ? last : line, column || undefined]);
    if (expected[0]?.[1] === 1 && expected[0][2] === 100_000) expect(found.map(([code]) => code)).toEqual(['not-json']);
    else expect(found).toEqual(wanted);
  });

  test('one mistake is one message, and the rest of the record is still looked at', () => {
    const name = putRecord(fresh(), 'ecsenius-bicolor', (text) => text.replace('"id": "ecsenius-bicolor"', '"id": "ecsenius-bicolour"'));
    expect(only(name)).toEqual([['name-mismatch', 3, 9]]);
    const both = putRecord(fresh(), 'ecsenius-bicolor', (text) => text.replace('ecsenius-bicolor"', 'ecsenius-bicolour"').trimEnd());
    expect(only(both).map(([code]) => code)).toEqual(['name-mismatch', 'spacing']);
  });

  test('form and plausibility wait for the schema', () => {
    const name = putRecord(fresh(), 'ecsenius-bicolor', (text) => text.replace('"unit": "cm"', '"unit": "cubit"').trimEnd());
    expect(only(name).map(([code]) => code)).toEqual(['not-in-list']);
  });

  test('reads standard input', () => {
    const { code, out } = commensal(['records', 'check', '-'], textOfRecord(sampleRecord()).replace('"id": "', '"id": "x'));
    expect(code).toBe(1);
    expect(out).toMatch(/^<standard input>:3:9 {2}name-mismatch\n/);
    expect(commensal(['records', 'check', '-', mixed, '--format', 'sarif'], textOfRecord(sampleRecord())).code).toBe(1);
  });

  test('knows the records around a part of them: what those name has a record', () => {
    const family = 'packages/species-sample/records/pomacentridae';
    for (const part of [family, `${family}/amphiprion-ocellaris.species.json`]) {
      expect(commensal(['records', 'check', part, '--strict'], '', root)).toMatchObject({ code: 0, err: '' });
    }
    const anemonefish = textOfRecord(sampleRecord('amphiprion-ocellaris'));
    expect(commensal(['records', 'check', '-', '--strict'], anemonefish).out).toBe('1 record, no problem.\n');
  });

  test('looks at a file once, on whatever way it was named', () => {
    const name = putRecord(fresh());
    const place = path.dirname(name);
    expect(check(place, name, `./${name}`, path.join(folder, name)).out).toBe('1 record, no problem.\n');
  });

  test('takes a named file whatever its name', () => {
    const name = put(`${fresh()}/draft.json`, '{}');
    expect(only(name).length).toBeGreaterThan(3);
  });

  test('follows links, and is led round in no circle', () => {
    const place = fresh();
    putRecord(`${place}/a`, 'diadema-setosum');
    symlinkSync('..', path.join(folder, place, 'a', 'up'));
    symlinkSync('a', path.join(folder, place, 'b'));
    mkdirSync(path.join(folder, `${place}-far`));
    symlinkSync(path.join(folder, mixed), path.join(folder, place, 'far'));
    const report: RecordsCheck = JSON.parse(check(place, '--format', 'json').out);
    expect(report.records).toBe(10);
    expect(report.problems).toHaveLength(9);
  });

  test('does not wait for a pipe among the records', () => {
    const place = fresh();
    putRecord(place);
    expect(spawnSync('mkfifo', [path.join(folder, place, 'pipe.species.json')]).status).toBe(0);
    expect(only(place)).toEqual([['not-a-file', undefined, undefined]]);
  });

  test('tells of what it may not read', () => {
    const place = fresh();
    chmodSync(path.join(folder, putRecord(place)), 0);
    mkdirSync(path.join(folder, place, 'closed'), { mode: 0 });
    const { out } = unprivileged(['records', 'check', place, '--format', 'json']);
    expect(problemsIn(out).map(([code]) => code)).toEqual(['unreadable', 'unreadable']);
  });

  test('lets no name of a file pass for output of its own', () => {
    const place = fresh();
    put(`${place}/x\n::error::y.species.json`, '');
    expect(check(place).out).toMatch(/^set-\d+\/x\\u000a::error::y\.species\.json {2}empty-file\n/);
    expect(check(place, '--format', 'annotations').out.split('\n')).toHaveLength(3);
  });

  test('holds records against a bibliography and stand-ins of one’s own', () => {
    const place = fresh();
    const name = putRecord(place);
    const own = put(`${place}/bibliography.json`, JSON.stringify(bibliography));
    const table = put(`${place}/stand-ins.json`, JSON.stringify(standIns));
    expect(check(name, '--bibliography', own, '--stand-ins', table).code).toBe(0);
    const wrong = check(name, '--bibliography', table);
    expect(wrong).toMatchObject(REFUSED);
    expect(wrong.err).toContain('stand-ins.json:1:1  wrong-type');
    expect(check(name, '--stand-ins', 'nowhere.json')).toMatchObject(REFUSED);
  });

  test('writes to a file, and over no file that it reads', () => {
    const place = fresh();
    const name = putRecord(place);
    const { code, out } = check(place, '--out', `${place}/report.txt`);
    expect({ code, out }).toEqual({ code: 0, out: '' });
    expect(readFileSync(path.join(folder, place, 'report.txt'), 'utf8')).toBe('1 record, no problem.\n');
    expect(check(place, '--out', `./${name}`)).toMatchObject({ ...REFUSED, err: expect.stringMatching(/^same-file\n/) });
    expect(check(place, '--out', `${place}/no/such/folder`).code).toBe(3);
  });
});

describe('what is checked when nothing is named', () => {
  test.each(['packages/species-sample/records', 'records'])('%s', (usual) => {
    const place = fresh();
    putRecord(`${place}/${usual}`);
    const { code, out } = commensal(['records', 'check'], '', path.join(folder, place));
    expect({ code, out }).toEqual({ code: 0, out: '1 record, no problem.\n' });
  });

  test('is an error where there is neither', () => {
    const { err, ...rest } = check();
    expect(rest).toEqual(REFUSED);
    expect(err).toMatch(/^no-records\n {2}no file or folder is named, and there is neither /);
  });
});

describe('a wrong call', () => {
  test.each<[string, string[], RegExp]>([
    ['a file that is not there', ['nowhere'], /^no-such-path\n {2}"nowhere" does not exist; /],
    ['one of several that is not there', [mixed, 'nowhere'], /^no-such-path\n/],
    ['a format that is not there', [mixed, '--format', 'xml'], /Allowed choices are text, json, sarif, annotations/],
    ['an empty name', [''], /^no-such-path\n/],
  ])('%s', (_, args, says) => {
    const { err, ...rest } = check(...args);
    expect(rest).toEqual(REFUSED);
    expect(err).toMatch(says);
  });

  test('a folder without records', () => {
    const place = path.dirname(put(`${fresh()}/notes.json`, '{}'));
    expect(check(place)).toMatchObject({ ...REFUSED, err: expect.stringMatching(/^no-records\n {2}".*" holds no species records; /) });
  });
});

describe('SARIF', () => {
  /** The schema of the OASIS standard, as the package of matchers of its authors carries it. */
  const schema = createRequire(import.meta.url)('@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json');
  // The schema is of draft 4 and uses nothing that draft 7 reads otherwise, save the names of these two.
  const { $schema: _, id: __, ...rest } = schema;
  const ajv = new Ajv({ strict: false, allErrors: true, unicodeRegExp: false });
  ajv.addFormat('uri', /^[a-z][a-z0-9+.-]*:[^\s"<>\\^`{|}]*$/i);
  ajv.addFormat('uri-reference', /^[^\s"<>\\^`{|}]*$/);
  ajv.addFormat('date-time', true);
  const validate = ajv.compile(rest);
  const errorsOf = (log: unknown) => (validate(log) ? [] : validate.errors);

  interface Log {
    runs: {
      columnKind: string;
      tool: {
        driver: { rules: { id: string; helpUri: string; shortDescription: { text: string }; defaultConfiguration: { level: string } }[] };
      };
      results: {
        ruleId: string;
        ruleIndex: number;
        level: string;
        message: { text: string };
        partialFingerprints: Record<string, string>;
        locations: {
          physicalLocation: { artifactLocation: { uri?: string; uriBaseId?: string }; region?: { startLine: number; startColumn: number } };
        }[];
      }[];
    }[];
  }
  const sarif = (args: string[], input = '', cwd = folder): Log =>
    JSON.parse(commensal(['records', 'check', ...args, '--format', 'sarif'], input, cwd).out);

  test('is what the published schema asks for, found or not', () => {
    const clean = sarif([putRecord(fresh())]);
    expect(errorsOf(clean)).toEqual([]);
    expect(clean.runs[0]?.results).toEqual([]);
    expect(errorsOf(sarif([mixed]))).toEqual([]);
    expect(errorsOf(sarif(['-'], '{}'))).toEqual([]);
    // The schema has to be able to refuse, or all of this shows nothing.
    expect(errorsOf({ ...sarif([mixed]), version: '2.0.0' })).not.toEqual([]);
  });

  test('holds every problem with rule, level, relative place and fingerprint', () => {
    const [run] = sarif([mixed]).runs;
    const { problems }: RecordsCheck = JSON.parse(check(mixed, '--format', 'json').out);
    expect(run?.columnKind).toBe('utf16CodeUnits');
    const rules = run?.tool.driver.rules ?? [];
    expect(
      run?.results.map(({ ruleId, level, locations: [at] }) => [
        ruleId,
        level,
        at?.physicalLocation.artifactLocation.uri,
        at?.physicalLocation.region,
      ]),
    ).toEqual(
      problems.map(({ code, level, file, line, column }) => [
        code,
        level,
        file,
        line === undefined ? undefined : { startLine: line, startColumn: column },
      ]),
    );
    for (const {
      ruleId,
      ruleIndex,
      level,
      locations: [at],
    } of run?.results ?? []) {
      expect(rules[ruleIndex]).toMatchObject({ id: ruleId, helpUri: `https://commensal.example/docs/problems/${ruleId}` });
      expect(rules[ruleIndex]?.shortDescription.text).toMatch(/\.$/);
      expect(rules[ruleIndex]?.defaultConfiguration.level).toBe(level);
      expect(at?.physicalLocation.artifactLocation.uriBaseId).toBe('SRCROOT');
    }
    const prints = (run?.results ?? []).map(({ partialFingerprints }) => partialFingerprints['commensalProblem/v1']);
    expect(new Set(prints).size).toBe(problems.length);
  });

  test('a fingerprint stays when lines move, and tells twins apart', () => {
    const place = fresh();
    const print = (change: (text: string) => string): (string | undefined)[] =>
      sarif([putRecord(place, 'ecsenius-bicolor', change)]).runs[0]?.results.map(
        (result) => result.partialFingerprints['commensalProblem/v1'],
      ) ?? [];
    const spoil = (text: string): string => text.replace('"unit": "cm"', '"unit": "cubit"');
    expect(print((text) => `\n\n${spoil(text)}`)).toEqual(print(spoil));
    expect(print(spoil)).toHaveLength(1);
    const twins = print((text) => text.replace('"addedIn"', '"id": 1,\n  "id": 2,\n  "addedIn"'));
    expect(new Set(twins).size).toBe(2);
  });

  test('names are written as URIs, and what lies elsewhere by its whole address', () => {
    const place = fresh();
    put(`${place}/a b/ü:%#?.species.json`, '');
    const uri = (log: Log): unknown => log.runs[0]?.results[0]?.locations[0]?.physicalLocation.artifactLocation;
    const log = sarif([place]);
    expect(errorsOf(log)).toEqual([]);
    expect(uri(log)).toEqual({ uri: `${place}/a%20b/%C3%BC%3A%25%23%3F.species.json`, uriBaseId: 'SRCROOT' });
    const away = sarif([`../${mixed}`], '', path.join(folder, place));
    expect(errorsOf(away)).toEqual([]);
    expect(uri(away)).toEqual({ uri: expect.stringMatching(/^file:\/\/\/.*zebrasoma-flavescens\.species\.json$/) });
  });
});

describe('annotations', () => {
  test('are workflow commands with file, line, column, title and message, a line each', () => {
    const { code, out } = check(mixed, '--format', 'annotations');
    expect(code).toBe(1);
    const lines = out.trimEnd().split('\n');
    expect(lines).toHaveLength(10);
    expect(lines.at(-1)).toBe('9 records, 9 problems: 7 errors, 2 warnings.');
    expect(lines[1]).toBe(
      `::warning file=${mixed}/blenniidae/meiacanthus-grammistes.species.json,line=1,col=2,title=spacing::the line ends in a carriage return; lines end in a line feed alone. Run commensal records fix.%0Ahttps://commensal.example/docs/problems/spacing`,
    );
    for (const line of lines.slice(0, -1))
      expect(line).toMatch(/^::(error|warning) file=[^,:]+(,line=\d+,col=\d+)?,title=[a-z0-9-]+::[^\r\n]+$/);
  });

  test('escape what would end them', () => {
    const place = fresh();
    put(`${place}/50%,a:b.species.json`, '');
    expect(check(place, '--format', 'annotations').out).toMatch(/^::error file=set-\d+\/50%25%2Ca%3Ab\.species\.json,title=empty-file::/);
    const name = putRecord(place, 'ecsenius-bicolor', (text) => text.replace('"form": "fish"', '"form": "100%"'));
    expect(check(name, '--format', 'annotations').out).toContain('::form is "100%25"; it must be fish, ');
  });

  test('of standard input have no file', () => {
    expect(commensal(['records', 'check', '-', '--format', 'annotations'], '').out).toMatch(/^::error title=empty-file::/);
  });
});

describe('--changed', () => {
  const env = { ...process.env, GIT_CONFIG_GLOBAL: '/dev/null', GIT_CONFIG_NOSYSTEM: '1' };
  const git = (place: string, ...args: string[]): void => {
    const identity = ['-c', 'user.name=A', '-c', 'user.email=a@commensal.example'];
    const { status, stderr } = spawnSync('git', [...identity, ...args], { cwd: path.join(folder, place), env, encoding: 'utf8' });
    if (status !== 0) throw new Error(stderr);
  };
  const commit = (place: string): void => {
    git(place, 'add', '-A');
    git(place, 'commit', '-qm', 'x');
  };
  const inside = (place: string, ...args: string[]) => commensal(['records', 'check', ...args], '', path.join(folder, place));
  const filesIn = (out: string): string[] => (JSON.parse(out) as RecordsCheck).problems.map(({ file }) => file);

  /** Three records that are all wrong, on the main line, and a branch. */
  function repository(): string {
    const place = fresh();
    for (const id of ['ecsenius-bicolor', 'liopropoma-rubre', 'zebrasoma-flavescens'])
      putRecord(`${place}/records`, id, (text) => text.trimEnd());
    git(place, 'init', '-q', '-b', 'main');
    commit(place);
    git(place, 'switch', '-qc', 'mine');
    return place;
  }

  test('tells of what was committed on the branch, of what was not yet, and of what is new', () => {
    const place = repository();
    expect(inside(place, '--changed').out).toBe('0 of 3 records, no problem.\n');
    putRecord(`${place}/records`, 'ecsenius-bicolor', (text) => `${text}\n`);
    commit(place);
    putRecord(`${place}/records`, 'liopropoma-rubre', (text) => `${text}\n`);
    putRecord(`${place}/records/new ü`, 'meiacanthus-grammistes', (text) => text.trimEnd());
    const { code, out } = inside(place, '--changed', '--format', 'json');
    expect(code).toBe(0);
    expect(filesIn(out)).toEqual([
      'records/blenniidae/ecsenius-bicolor.species.json',
      'records/new ü/blenniidae/meiacanthus-grammistes.species.json',
      'records/serranidae/liopropoma-rubre.species.json',
    ]);
    expect(JSON.parse(out).records).toBe(3);
    expect(filesIn(inside(place, '--changed=HEAD', '--format', 'json').out)).toHaveLength(2);
    expect(filesIn(inside(path.join(place, 'records'), '.', '--changed', '--format', 'json').out)).toHaveLength(3);
  });

  test('leaves out what changed on the main line meanwhile, and what git ignores', () => {
    const place = repository();
    git(place, 'switch', '-q', 'main');
    putRecord(`${place}/records`, 'ecsenius-bicolor', (text) => `${text}\n`);
    commit(place);
    git(place, 'switch', '-q', 'mine');
    put(`${place}/.gitignore`, 'draft*\n');
    putRecord(`${place}/records/draft`, 'meiacanthus-grammistes', (text) => text.trimEnd());
    expect(filesIn(inside(place, '--changed', '--format', 'json').out)).toEqual([]);
    expect(filesIn(inside(place, '--changed=main', '--format', 'json').out)).toEqual([]);
  });

  test('does not miss a record that was taken away and one that was moved', () => {
    const place = repository();
    git(place, 'mv', 'records/blenniidae/ecsenius-bicolor.species.json', 'records/moved.species.json');
    git(place, 'rm', '-q', 'records/serranidae/liopropoma-rubre.species.json');
    expect(new Set(filesIn(inside(place, '--changed', '--format', 'json').out))).toEqual(new Set(['records/moved.species.json']));
  });

  test('says what is missing: a repository, a commit, a main line, the commit named', () => {
    const place = path.dirname(putRecord(fresh()));
    const refused = (...args: string[]): string => {
      const { err, ...rest } = inside(place, '.', ...args);
      expect(rest).toEqual(REFUSED);
      return err;
    };
    expect(refused('--changed')).toMatch(/^no-repository\n/);
    git(place, 'init', '-q', '-b', 'trunk');
    expect(refused('--changed')).toMatch(/^no-commit\n/);
    commit(place);
    expect(refused('--changed')).toMatch(/^no-main-line\n/);
    expect(refused('--changed', 'nobody')).toMatch(/^no-such-commit\n {2}"nobody" is no commit, /);
    expect(refused('--changed=--output=x')).toMatch(/^no-such-commit\n/);
    expect(inside(place, '.', '--changed=trunk').out).toBe('0 of 1 record, no problem.\n');
  });

  test('without git is the fault of the machine', () => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [bundle, 'records', 'check', mixed, '--changed'], {
      cwd: folder,
      env: { PATH: path.join(folder, mixed) },
      encoding: 'utf8',
    });
    expect({ status, stdout }).toEqual({ status: 3, stdout: '' });
    expect(stderr).toBe('--changed asks git what has changed, and there is no git on this machine.\n');
  });
});

describe('on the way', () => {
  const big = fresh();
  afterEach(() => rmSync(path.join(folder, big), { recursive: true, force: true }));

  test('Ctrl-C ends it at once, with 130 and without a result', async () => {
    putMany(big, 4000, (text) => text.replaceAll('\n', '\r\n'));
    const pipe = path.join(folder, `${big}-bibliography`);
    expect(spawnSync('mkfifo', [pipe]).status).toBe(0);
    const child = spawn(process.execPath, [bundle, 'records', 'check', big, '--bibliography', pipe, '--out', 'never.txt'], { cwd: folder });
    let said = '';
    child.stdout.on('data', (data) => {
      said += data;
    });
    child.stderr.on('data', (data) => {
      said += data;
    });
    // It reads the bibliography first: once that is taken, work on the records has begun.
    writeFileSync(pipe, JSON.stringify(bibliography));
    await setTimeout(200);
    const from = Date.now();
    child.kill('SIGINT');
    const [code] = await once(child, 'close');
    expect({ code, said }).toEqual({ code: 130, said: '' });
    // All of them take seconds; a breath is taken every twentieth of one. The limit has room for a busy machine.
    expect(Date.now() - from).toBeLessThan(1500);
    expect(() => readFileSync(path.join(folder, 'never.txt'))).toThrow('ENOENT');
  });

  test('no progress is shown where nobody looks', () => {
    putMany(big, 600);
    expect(check(big)).toEqual({ code: 0, out: '600 records, no problem.\n', err: '' });
  });
});
