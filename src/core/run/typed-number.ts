import { explainThousands } from '../quantity/explain-thousands.ts';
import { type Decision, refuse } from './decision.ts';

/** The text with a point where a decimal comma was typed. */
export const withPoints = (text: string): string => text.replace(/(\d),(\d)/g, '$1.$2');

/** Refuses a comma that could part thousands as well as decimals: `1,234`. */
export const checkThousands = (text: string): (Decision & { readonly ok: false }) | undefined => {
  const [found] = /(?<![\d.,])[1-9]\d{0,2},\d{3}(?![\d.,])/.exec(text) ?? [];
  if (found === undefined) return undefined;
  const { message, instead } = explainThousands(found);
  return refuse('ambiguous-reading', message, instead);
};
