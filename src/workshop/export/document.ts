import { createHash } from 'node:crypto';
import { html, type Markup } from './markup.ts';

/** What stands at the foot of every page that is handed out. */
export const bounds =
  'Modelled on GMP for cosmetics (ISO 22716); not validated, no claim of compliance; it replaces no safety assessment.';

/**
 * A page that holds everything it needs: no script, nothing from outside. The style is our own text;
 * the policy lets this very text through and nothing else.
 */
export const htmlDocument = (title: string, style: string, body: Markup): string => {
  const hash = createHash('sha256').update(style).digest('base64');
  const policy = `default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'`;
  const sheet: Markup = { markup: `<style>${style}</style>` };
  return html`<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
${sheet}</head><body>
${body}
</body></html>
`.markup;
};
