import type { Said, Table } from './model.ts';
import { say } from '../words/say.ts';

/** Values closer than this are printed alike, mm or radians: lines are found by searches that end within less. */
const SAME = 2e-3;

const isSame = (a: Said | undefined, b: Said | undefined): boolean => {
  if (typeof a === 'string' || typeof b === 'string' || a === undefined || b === undefined) return a === b;
  if (a.kind === 'length' && b.kind === 'length') return Math.abs(a.mm - b.mm) < SAME;
  if (a.kind === 'angle' && b.kind === 'angle') return Math.abs(a.radians - b.radians) < SAME;
  return false;
};

/** A station's number from its name, degrees; NaN for any other name. */
const numberOf = (name: Said | undefined): number =>
  typeof name === 'string' ? Number(/^([\d.]+)°$/.exec(name)?.[1] ?? NaN) : NaN;

/**
 * A table that goes once around, with each pair of stations to the right and left of 0° that say the same in one row: the
 * way around is then laid off both ways from there. Unchanged where any pair differs or stands alone.
 */
export const foldMirrored = (table: Table): Table => {
  const { title, header, rows, goesAround } = table;
  if (goesAround !== true) return table;
  const around = header.indexOf('around');
  const ways = rows.flatMap(({ [around]: cell }) =>
    typeof cell === 'object' && cell.kind === 'length' ? [cell.mm] : [],
  );
  // The stations are spread evenly, so that the last is as far from a whole turn as the second from 0°.
  const turn = Math.max(...ways) + Math.min(...ways.filter((way) => way > 0));
  const isWayRound = (a: Said | undefined, b: Said | undefined): boolean =>
    typeof a === 'object' &&
    typeof b === 'object' &&
    a.kind === 'length' &&
    b.kind === 'length' &&
    Math.abs(a.mm + b.mm - turn) < SAME;
  const stations = rows.map((row) => ({ row, at: numberOf(row[0]) }));
  if (stations.some(({ at }) => Number.isNaN(at))) return table;
  const half = stations.filter(({ at }) => at <= 180).sort((a, b) => a.at - b.at);
  const folded = half.flatMap(({ row, at }) => {
    if (at === 0 || at === 180) return [row];
    const other = stations.find((one) => Math.abs(one.at - (360 - at)) < 1e-6)?.row;
    const isAlike = row.every((cell, c) =>
      c === around ? isWayRound(cell, other?.[c]) : c === 0 || isSame(cell, other?.[c]),
    );
    const [right, left] = [row[0], other?.[0]];
    return isAlike && typeof right === 'string' && typeof left === 'string'
      ? [[`${right} · ${left}`, ...row.slice(1)]]
      : [];
  });
  if (folded.length < half.length || 2 * folded.length < rows.length || rows.length < 6) return table;
  return {
    title: around < 0 ? title : say`${title}, around both ways from 0°`,
    header: [say`Stations`, ...header.slice(1)],
    rows: folded,
  };
};
