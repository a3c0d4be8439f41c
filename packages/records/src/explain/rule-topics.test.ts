import { rules } from '@commensal/core';
import { expect, test } from 'vitest';
import { topicOf } from './rule-topics.js';

test('every rule has a topic of its own', () => {
  const topics = rules.map(({ id }) => topicOf(id));
  expect(topics.length).toBeGreaterThan(10);
  expect(new Set(topics).size).toBe(rules.length);
  expect(rules.filter(({ id }) => topicOf(id) === id && id !== 'quarantine')).toEqual([]);
});
