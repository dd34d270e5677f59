import type { Saying } from './conversation.ts';

export const good = (text: string): Saying => ({ tone: 'good', text });
export const plain = (text: string): Saying => ({ tone: 'plain', text });
export const mend = (text: string): Saying => ({ tone: 'mend', text });
export const stop = (text: string): Saying => ({ tone: 'stop', text });
