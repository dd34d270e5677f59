declare const TAREBOOK_VERSION: string;

/** Set by the bundler; a run from source says so. */
export const version = typeof TAREBOOK_VERSION === 'undefined' ? 'source' : TAREBOOK_VERSION;

export const programName = `tarebook ${version}`;
