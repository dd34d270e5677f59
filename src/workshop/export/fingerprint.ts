const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** The first 80 bits of a hash as 16 characters of base32 (RFC 4648 section 6), to be printed and compared by eye. */
export const shortHash = (hex: string): string => {
  let bits = BigInt(`0x${hex.slice(0, 20)}`);
  let text = '';
  for (let n = 0; n < 16; n += 1) {
    text = (alphabet[Number(bits & 31n)] ?? '') + text;
    bits >>= 5n;
  }
  return text;
};
