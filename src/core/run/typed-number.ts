import { type Decision, refuse } from './decision.ts';

/** The text with a point where a decimal comma was typed. */
export const withPoints = (text: string): string => text.replace(/(\d),(\d)/g, '$1.$2');

/** Refuses a comma that could part thousands as well as decimals: `1,234`. */
export const checkThousands = (text: string): (Decision & { readonly ok: false }) | undefined => {
  const [found, whole, rest] = /(?<![\d.,])([1-9]\d{0,2}),(\d{3})(?![\d.,])/.exec(text) ?? [];
  return found === undefined
    ? undefined
    : refuse(
        'ambiguous-reading',
        `${found} can mean ${whole}${rest} or ${whole}.${rest}.`,
        `Type ${whole}${rest} or ${whole}.${rest}.`,
      );
};
