/** What a passphrase is asked for, and whose it is. */
export type KeyAct =
  | { readonly kind: 'sign'; readonly name: string }
  | { readonly kind: 'witness'; readonly name: string; readonly step: number };
