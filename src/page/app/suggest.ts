import type { InputView } from '../core/views.ts';
import { catalogue, printers } from './state.ts';

/** Texts offered for an input: papers and printers by name, otherwise what the input itself offers. */
export const suggestionsOf = (input: InputView, _text: string): readonly string[] => {
  if (input.name === 'paper') return catalogue.value?.papers ?? [];
  if (input.name === 'printer') return Object.keys(printers.value);
  return input.offers;
};
