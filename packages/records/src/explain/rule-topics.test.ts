import { rules } from '@commensal/core';
import { expect, test } from 'vitest';
import { TOPICS, topicOf } from './rule-topics.js';

test('every rule has a topic of its own, and every topic a rule', () => {
  expect(rules.length).toBeGreaterThan(10);
  expect(Object.keys(TOPICS).sort()).toEqual(rules.map(({ id }) => id).sort());
  expect(new Set(rules.map(({ id }) => topicOf(id))).size).toBe(rules.length);
});
