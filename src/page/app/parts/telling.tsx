import type { JSX } from 'preact';
import type { Issue } from '../../../issue.ts';
import { spoken } from '../words.ts';
import { say } from '../../../words/say.ts';

const words = () => ({ right: say`Fix:` });

/** What is wrong and what would be right, in the command line's own words. */
export const Telling = ({
  issues,
  id,
}: {
  readonly issues: readonly Issue[];
  readonly id?: string;
}): JSX.Element | null =>
  issues.length === 0 ? null : (
    <div class="telling" id={id} role="status">
      {issues.map(({ code, path, message, hint }) => (
        <p key={`${path} ${code} ${message}`}>
          <strong>{spoken(message)}</strong>
          <br />
          {words().right} {spoken(hint)}
        </p>
      ))}
    </div>
  );
