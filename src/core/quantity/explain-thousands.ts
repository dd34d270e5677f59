/** What a number means whose comma could part thousands as well as decimals, `1,234`, and what to type. */
export const explainThousands = (
  typed: string,
): { readonly message: string; readonly instead: string } => {
  const whole = typed.replace(',', '');
  const decimal = typed.replace(',', '.');
  return {
    message: `${typed} can mean ${whole} or ${decimal}.`,
    instead: `Type ${whole} or ${decimal}.`,
  };
};
