import { say } from '../words/say.ts';

/** Names of the branch's quarter lines 0, 90, 180, 270. */
export const quarterWords = (angle: number): readonly [string, string, string, string] => {
  if (Math.abs(angle - Math.PI / 2) < 1e-9) return [say`ALONG · TDC`, say`ACROSS`, say`ALONG`, say`ACROSS`];
  return angle < Math.PI / 2
    ? [say`HEEL · TDC`, say`SIDE`, say`CROTCH`, say`SIDE`]
    : [say`CROTCH · TDC`, say`SIDE`, say`HEEL`, say`SIDE`];
};
