/**
 * A reader of RFC 4180, written from its grammar alone: records end with CRLF, a cell is quoted as a
 * whole or not at all, and only a quoted one may hold quotes, commas and line ends. Throws otherwise.
 */
export const readCsv = (text: string): readonly (readonly string[])[] => {
  const records: string[][] = [];
  let [record, at]: [string[], number] = [[], 0];
  while (at < text.length) {
    const quoted = /"((?:[^"]|"")*)"/y;
    const bare = /[^",\r\n]*/y;
    quoted.lastIndex = at;
    bare.lastIndex = at;
    const found = quoted.exec(text);
    const cell = found?.[1]?.replaceAll('""', '"') ?? bare.exec(text)?.[0] ?? '';
    at = found ? quoted.lastIndex : bare.lastIndex;
    record.push(cell);
    if (text[at] === ',') {
      at += 1;
    } else if (text.startsWith('\r\n', at)) {
      records.push(record);
      record = [];
      at += 2;
    } else {
      throw new Error(`no comma and no CRLF at ${at}: ${text.slice(at, at + 20)}`);
    }
  }
  if (record.length > 0) throw new Error('the last record does not end');
  return records;
};

/** The records under their header; throws where one is longer or shorter. */
export const csvObjects = (text: string): readonly Readonly<Record<string, string>>[] => {
  const [header = [], ...records] = readCsv(text);
  return records.map(record => {
    if (record.length !== header.length) throw new Error(`not as many cells: ${record.join()}`);
    return Object.fromEntries(header.map((name, index) => [name, record[index] ?? '']));
  });
};
