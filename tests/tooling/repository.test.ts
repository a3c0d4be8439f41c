/** What has to agree across the repository: versions, licences, and what the README tells people to type. */
import { existsSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { manifestOf, packageFolders, root, textOf } from '../support/repository.js';

const workspace = manifestOf('.');
const packages = packageFolders.map((folder) => ({ folder, manifest: manifestOf(folder) }));
const version = manifestOf('packages/core').version;
const ours = new Set(packages.map(({ manifest }) => manifest.name));

test('there are six packages', () => {
  expect(packages.map(({ manifest }) => manifest.name).sort()).toEqual([
    '@commensal/core',
    '@commensal/records',
    '@commensal/report',
    '@commensal/schema',
    '@commensal/species-sample',
    'commensal',
  ]);
});

describe.each(packages)('$folder', ({ folder, manifest }) => {
  test('has the version that all have', () => expect(manifest.version).toBe(version));

  test('asks for exactly that version of the others', () => {
    const wanted = Object.entries(manifest.dependencies ?? {}).filter(([name]) => ours.has(name));
    expect(wanted).toEqual(wanted.map(([name]) => [name, version]));
  });

  test('asks for the Node that the workspace asks for', () => expect(manifest.engines.node).toBe(workspace.engines.node));

  test('has its licence and packs it', () => {
    expect(textOf(path.join(folder, 'LICENSE'))).toContain('MIT License');
    expect(manifest.license).toMatch(/\bMIT\b/);
    expect(manifest.files).toContain('LICENSE');
  });

  test('has a licence text for data where the licence names one', () => {
    const forData = manifest.license.includes('CC-BY-4.0');
    expect(existsSync(path.join(root, folder, 'LICENSE-DATA'))).toBe(forData);
    expect(manifest.files?.includes('LICENSE-DATA')).toBe(forData);
  });
});

test('the licence stands at the root', () => expect(textOf('LICENSE')).toContain('Copyright (c) 2026 Commensal contributors'));

test('the lock file knows the packages at their versions', () => {
  const lock = JSON.parse(textOf('package-lock.json'));
  for (const { folder, manifest } of packages)
    expect(lock.packages[folder]).toMatchObject({ name: manifest.name, version: manifest.version });
});

test('every npm command that the README names exists', () => {
  const commands = [...textOf('README.md').matchAll(/\bnpm (?:run ([\w:-]+)|(start|test)\b)/g)].map((match) => match[1] ?? match[2] ?? '');
  expect(commands.length).toBeGreaterThan(0);
  expect(commands.filter((command) => workspace.scripts?.[command] === undefined)).toEqual([]);
});

test('every script that the workspace names exists', () => {
  const files = Object.values(workspace.scripts ?? {}).flatMap((script) => script.match(/scripts\/[\w-]+\.mjs/g) ?? []);
  expect(files.length).toBeGreaterThan(0);
  expect(files.filter((file) => !existsSync(path.join(root, file)))).toEqual([]);
});

test('the citation file says what a citation needs', () => {
  const lines = textOf('CITATION.cff').trimEnd().split('\n');
  const fields = Object.fromEntries(lines.filter((line) => /^[a-z-]+:/.test(line)).map((line) => line.split(/:\s*(.*)/).slice(0, 2)));
  expect(fields).toMatchObject({ 'cff-version': '1.2.0', title: 'Commensal', version, license: 'MIT', type: 'software' });
  expect(fields.message).toMatch(/\S/);
  expect(new Date(fields['date-released'] ?? '').toISOString().slice(0, 10)).toBe(fields['date-released']);
  expect(lines[lines.indexOf('authors:') + 1]).toBe('  - name: Commensal contributors');
  // Every other line is one of these fields or the author: nothing in it goes unread.
  expect(lines.filter((line) => !/^([a-z-]+: \S.*|authors:| {2}- name: \S.*)$/.test(line))).toEqual([]);
});

test('the change log has a heading for the version', () => {
  expect(textOf('CHANGELOG.md').split('\n')).toContainEqual(
    expect.stringMatching(new RegExp(`^## \\[?v?${version.replaceAll('.', '\\.')}\\b`)),
  );
});
