import type { FileView, Outcome } from '../core/views.ts';
import { issues, notice, tellFault } from './state.ts';
import { say } from '../../words/say.ts';

const words = { saved: (name: string): string => say`Saved ${name}` };

/** Hands a finished file to the browser, which puts it where downloads go. */
export const saveFile = ({ name, type, bytes }: FileView): void => {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([bytes], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  notice.value = words.saved(name);
};

/** Saves a file that the worker makes, or says why it cannot be made. */
export const saveOutcome = async (making: Promise<Outcome<FileView>>): Promise<void> => {
  try {
    const made = await making;
    if (made.kind === 'done') saveFile(made.value);
    else issues.value = made.issues;
  } catch (error) {
    tellFault(error);
  }
};
