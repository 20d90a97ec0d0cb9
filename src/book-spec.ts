import type { Spec } from './request.ts';

/** What `soapstone.json` says of a book of many pieces, in place of one request. */
export interface BookSpec {
  /** The book's file name. */
  readonly book: string;
  /** The job files it was made from. */
  readonly sources: readonly string[];
  /** False where pieces of those files had faults and were left out. */
  readonly isWhole: boolean;
  readonly pieces: readonly {
    /** What its pages and sheets are named after. */
    readonly name: string;
    /** Its first page in the book, from 1, and how many follow each other. */
    readonly first: number;
    readonly pages: number;
    readonly spec: Spec;
  }[];
}

/** True for what a book says of itself. */
export const isBookSpec = (spec: unknown): spec is BookSpec =>
  typeof spec === 'object' &&
  spec !== null &&
  'book' in spec &&
  'pieces' in spec &&
  Array.isArray(spec.pieces);
