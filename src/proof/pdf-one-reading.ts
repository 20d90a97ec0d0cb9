import { readObject } from './pdf-objects.ts';
import type { Section } from './pdf-sections.ts';
import { isRef, numberOf, type Resolve } from './pdf-values.ts';
import { present } from './present.ts';
import { say } from '../words/say.ts';

/** A stretch of the file, from its first byte to the one after its last. */
interface Stretch {
  readonly start: number;
  readonly end: number;
}

const refuse = (what: string): never => {
  throw new Error(`${what}: ${say`programs would show different prints; make it again`}`);
};

/** Every object that any section names, and the sections themselves, in the order of the file; each once. */
const listStretches = (text: string, sections: readonly Section[], resolve: Resolve): readonly Stretch[] => {
  const ends = new Map<number, number>(sections.map(({ start, end }) => [start, end]));
  for (const { places } of sections)
    for (const [id, place] of places)
      if (place.kind === 'at' && !ends.has(place.offset))
        ends.set(place.offset, readObject(text, id, place, resolve).end);
  return [...ends].map(([start, end]) => ({ start, end })).sort((a, b) => a.start - b.start);
};

/** What may stand between objects: white space, comments, and where a section is said to be. */
const between = /^(?:[\0\t\n\f\r ]|%[^\r\n]*|startxref[\t\n\f\r ]+\d+)*$/;

/** More than any writer leaves between two objects, bytes. */
const mostBetween = 65_536;

const checkGaps = (text: string, stretches: readonly Stretch[]): void => {
  let from = 0;
  for (const { start, end } of [...stretches, { start: text.length, end: text.length }]) {
    if (start < from) refuse(say`two objects of the file lie over each other`);
    if (start - from > mostBetween || !between.test(text.slice(from, start)))
      refuse(say`the file holds something that its table does not name`);
    from = end;
  }
};

/** Heads of objects and trailers hidden in what streams hold: a program that mends a file finds those too. */
const checkHidden = (text: string, stretches: readonly Stretch[], sections: readonly Section[]): void => {
  const known = new Set(stretches.map(({ start }) => start));
  for (const { index } of text.matchAll(/(?<!\d)\d+[\0\t\n\f\r ]+\d+[\0\t\n\f\r ]+obj(?![A-Za-z])/g))
    if (!known.has(index)) refuse(say`the file holds an object that its table does not name`);
  for (const { index } of text.matchAll(/trailer[\0\t\n\f\r ]*<</g))
    if (!sections.some(({ start, end }) => start < index && index < end))
      refuse(say`the file holds a second table of objects`);
};

const checkSections = (text: string, stretches: readonly Stretch[], sections: readonly Section[]): void => {
  const [newest] = sections;
  const { dict } = present(newest);
  const root = dict.get('Root');
  for (const section of sections) {
    const other = section.dict.get('Root');
    if (other !== undefined && !(isRef(other) && isRef(root) && other.id === root.id))
      refuse(say`two tables of the file start from different objects`);
    // ISO 32000-1 table 15 (from memory): readers treat an object numbered Size or higher as missing.
    for (const id of section.places.keys())
      if (id >= numberOf(dict.get('Size'))) refuse(say`the file has more objects than it says`);
  }
  // ISO 32000-1 annex F (from memory): a program that shows such a file while it loads reads the table right behind the first object.
  const [first, second] = stretches;
  if (first === undefined || !/^[^]{0,32}obj[^]{0,200}\/Linearized/.test(text.slice(first.start, first.end)))
    return;
  if (second?.start !== newest?.start) refuse(say`the file starts with a table that is not its newest`);
};

/**
 * Checks the bytes of an open file against its cross-reference sections: nothing may stand in it that they do not name. A program
 * that finds a table broken looks for objects itself, and some start a linearized file from the front. All of them must find the
 * same objects as a program that reads the table at the end. Throws where they may not.
 */
export const checkOneReading = (text: string, sections: readonly Section[], resolve: Resolve): void => {
  const stretches = listStretches(text, sections, resolve);
  checkGaps(text, stretches);
  checkHidden(text, stretches, sections);
  checkSections(text, stretches, sections);
};
