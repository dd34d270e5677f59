/** The one byte form of a file that is signed or holds signatures: JSON, indented by two, with a last newline. */
export const fileText = (value: object): string => `${JSON.stringify(value, null, 2)}\n`;
