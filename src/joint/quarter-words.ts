/** Names of the branch's quarter lines 0, 90, 180, 270. */
export const quarterWords = (angle: number): readonly [string, string, string, string] => {
  if (Math.abs(angle - Math.PI / 2) < 1e-9) return ['ALONG · TDC', 'ACROSS', 'ALONG', 'ACROSS'];
  return angle < Math.PI / 2
    ? ['HEEL · TDC', 'SIDE', 'CROTCH', 'SIDE']
    : ['CROTCH · TDC', 'SIDE', 'HEEL', 'SIDE'];
};
