import { expect } from 'vitest';
import { UserError, type Issue } from '../../src/issue.ts';

/** Runs `read`, which must refuse the request, and gives back what it says. */
export function refusalOf(read: () => unknown): Issue {
  let thrown: unknown;
  try {
    read();
  } catch (error) {
    thrown = error;
  }
  expect(thrown).toBeInstanceOf(UserError);
  const { failure, issues } = thrown as UserError;
  expect(failure).toBe('request');
  const [issue] = issues;
  if (!issue || issues.length !== 1) throw new Error('not exactly one issue');
  for (const line of [issue.message, issue.hint]) expect(line).toMatch(/^[^\n]{3,400}$/);
  return issue;
}
