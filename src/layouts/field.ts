/**
 * The declaration of one input. Command-line options, job-file keys, page forms, help, README tables, JSON Schema and
 * title-block lines are all made from lists of these; nothing else states a name, a range or a default.
 */
export interface FieldBase {
  /** Name as typed: kebab-case, the trade's word. */
  readonly key: string;
  /** One line of help, lower case, no full stop. */
  readonly help: string;
  /** A value as a person would type it, used in help and docs. */
  readonly example: string;
  /** What stands for the value in help: `L`, `A`, `P`, `N`, `TEXT`. */
  readonly symbol: string;
  /** Text used when the input is left out; a field with neither default nor `optional` is required. */
  readonly default?: string;
  readonly optional?: boolean;
  /** True where the option may be given several times (values come as an array). */
  readonly many?: boolean;
}
