import type { Basis } from '@commensal/schema';
import { expect, it } from 'vitest';
import { BASES, weakest } from './basis.js';

it('of any two bases the one that stands later is the weaker, in either order', () => {
  const order: Basis[] = ['measured', 'derived', 'imputed', 'practice', 'recalled'];
  expect(BASES).toEqual(order);
  order.forEach((one, at) => {
    order.forEach((other, otherAt) => {
      expect(weakest(one, other)).toBe(order[Math.max(at, otherAt)]);
    });
  });
});

it('one basis is its own weakest, and of several the weakest decides wherever it stands', () => {
  expect(weakest('derived')).toBe('derived');
  expect(weakest('measured', 'recalled', 'practice')).toBe('recalled');
  expect(weakest('measured', 'imputed', 'measured', 'derived')).toBe('imputed');
});
