/**
 * What a witness signs: the batch, the step, the name, and the hash of the journal's last line, so that
 * it speaks of this batch at this very point.
 */
export const witnessText = (
  batch: string,
  step: number,
  witness: string,
  journalHash: string,
): string => ['tarebook witness', batch, String(step), witness, journalHash].join('\n');
