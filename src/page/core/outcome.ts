import { UserError } from '../../issue.ts';
import type { Outcome } from './views.ts';

const refuse = (error: unknown): Outcome<never> => {
  if (!(error instanceof UserError)) throw error;
  return { kind: 'refused', failure: error.failure, issues: error.issues };
};

/** Runs something that may find a fault in what was asked. Faults of our own are thrown on. */
export const attempt = <T>(run: () => T): Outcome<T> => {
  try {
    return { kind: 'done', value: run() };
  } catch (error) {
    return refuse(error);
  }
};

/** As `attempt`, for what takes its time. */
export const attemptLater = async <T>(run: () => Promise<T>): Promise<Outcome<T>> => {
  try {
    return { kind: 'done', value: await run() };
  } catch (error) {
    return refuse(error);
  }
};
