/** What is here when the program is called without a command, as data: the command line fills it. */
export interface HomeModel {
  readonly sheets: readonly HomeSheet[];
  readonly inHand: readonly HomeBatch[];
  readonly closed: readonly HomeRecord[];
  /** Batches that cannot be read, each with the sentence that says why. */
  readonly unreadable: readonly { readonly batch: string; readonly why: string }[];
}

export interface HomeSheet {
  readonly path: string;
  /** Undefined where the sheet has errors. */
  readonly name: string | undefined;
  /** Demo sheets are only ever made for practice. */
  readonly isDemo: boolean;
}

export interface HomeBatch {
  readonly batch: string;
  readonly practice: boolean;
  /** Where it stands, in a few words: `Fern domes, step 7 of 14, Ada`. */
  readonly where: string;
}

export interface HomeRecord {
  readonly batch: string;
  readonly practice: boolean;
  /** When it was closed and by whom it is signed, in a few words. */
  readonly state: string;
}

export type HomeChoice =
  | { readonly kind: 'run'; readonly path: string; readonly practice: boolean }
  | { readonly kind: 'resume'; readonly batch: string; readonly practice: boolean }
  | { readonly kind: 'show'; readonly batch: string; readonly practice: boolean }
  | { readonly kind: 'leave' };

/** One line that can be chosen, or that says why it cannot. */
export interface HomeEntry {
  readonly section: string;
  readonly title: string;
  readonly detail: string;
  /** What Enter does there; undefined where nothing can be done. */
  readonly choice: HomeChoice | undefined;
  /** What Enter does, in words. */
  readonly does: string;
}

const mark = (practice: boolean): string => (practice ? 'practice' : '');

const sheetEntry = (sheet: HomeSheet, wantsPractice: boolean): HomeEntry => {
  const { path, name, isDemo } = sheet;
  const section = isDemo ? 'Demo sheets, for practice' : 'Sheets here';
  if (name === undefined) {
    const does = `This sheet has errors: \`tarebook check ${path}\` tells them.`;
    return { section, title: path, detail: 'has errors', choice: undefined, does };
  }
  const practice = isDemo || wantsPractice;
  return {
    section,
    title: name,
    detail: isDemo ? '' : path,
    choice: { kind: 'run', path, practice },
    does: practice
      ? 'Enter makes a practice batch of it.'
      : 'Enter makes a real batch of it. Tab: for practice.',
  };
};

/** Everything that can be chosen, in the order in which it shows; Tab turns own sheets to practice and back. */
export const homeEntries = (model: HomeModel, wantsPractice: boolean): readonly HomeEntry[] => [
  ...model.inHand.map(
    ({ batch, practice, where }): HomeEntry => ({
      section: 'Batches in hand',
      title: `${batch}  ${where}`,
      detail: mark(practice),
      choice: { kind: 'resume', batch, practice },
      does: 'Enter goes on with it.',
    }),
  ),
  ...model.sheets.map(sheet => sheetEntry(sheet, wantsPractice)),
  ...model.closed.map(
    ({ batch, practice, state }): HomeEntry => ({
      section: 'Closed records',
      title: `${batch}  ${state}`,
      detail: mark(practice),
      choice: { kind: 'show', batch, practice },
      does: 'Enter shows it.',
    }),
  ),
  ...model.unreadable.map(
    ({ batch, why }): HomeEntry => ({
      section: 'Not readable',
      title: batch,
      detail: '',
      choice: undefined,
      does: why,
    }),
  ),
];
