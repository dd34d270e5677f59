import type { Scale, SizeWish } from '../plan/plan.ts';
import type { ScaleCheck } from '../sheet/sheet.ts';
import type { Part, TallyItem, Way } from './event.ts';
import type { StretchKind } from './remedy-event.ts';

/** A reading as its digits were typed, with what the maker says it is. */
export interface ReadingIntent {
  readonly step: number;
  readonly way: Way;
  readonly part: Part;
  readonly typed: string;
}

/** What a maker asks for. `decide` answers with events or a refusal. */
export type Intent =
  | {
      readonly type: 'begin';
      readonly batch: string;
      readonly practice: boolean;
      readonly program: string;
      readonly sheet: string;
      readonly size: SizeWish;
      readonly scales: readonly Scale[];
      /** What the workshop asks for where the sheet says nothing of it. */
      readonly scaleCheck?: ScaleCheck;
      /** Why the batch begins although a scale was not checked in time. */
      readonly scaleReason?: string;
    }
  /** Without `typed` the sheet's tare is taken. */
  | {
      readonly type: 'weigh-vessel';
      readonly vessel: string;
      readonly typed?: string;
      readonly confirmed?: boolean;
    }
  | { readonly type: 'identify-lot'; readonly step: number; readonly lot: string }
  | ({ readonly type: 'read' } & ReadingIntent)
  | { readonly type: 'tare'; readonly step: number }
  | ({ readonly type: 'take-back' } & ReadingIntent)
  | {
      readonly type: 'amend';
      readonly seq: number;
      readonly typed: string;
      readonly reason: string;
    }
  | { readonly type: 'accept'; readonly step: number; readonly reason: string }
  | {
      readonly type: 'choose-remedy';
      readonly step: number;
      readonly kind: StretchKind;
      readonly reason: string;
    }
  | { readonly type: 'leave-remedy' }
  | { readonly type: 'answer-slip'; readonly step: number; readonly answer: 'yes' | 'no' }
  | { readonly type: 'tick'; readonly step: number }
  | { readonly type: 'start-hold'; readonly step: number }
  | { readonly type: 'end-hold'; readonly step: number; readonly reason?: string }
  | { readonly type: 'measure'; readonly step: number; readonly typed: string }
  | {
      readonly type: 'adjust';
      readonly step: number;
      readonly typed: string;
      readonly confirmed?: boolean;
    }
  | { readonly type: 'finish-adjust'; readonly step: number; readonly reason?: string }
  | {
      readonly type: 'tally';
      readonly step: number;
      readonly item: TallyItem;
      readonly typed: string;
      readonly reason?: string;
      readonly confirmed?: boolean;
    }
  | { readonly type: 'set-aside'; readonly typed: string; readonly name: string }
  | {
      readonly type: 'add-outside';
      readonly material: string;
      readonly typed: string;
      readonly reason: string;
    }
  | { readonly type: 'put-later'; readonly step: number }
  | { readonly type: 'turn-to'; readonly phase: string }
  | { readonly type: 'next-portion'; readonly step: number }
  | { readonly type: 'note'; readonly text: string }
  | { readonly type: 'go-unwitnessed'; readonly step: number; readonly reason: string }
  /** With what the key of the witness signed. */
  | {
      readonly type: 'witness';
      readonly step: number;
      readonly witness: string;
      readonly kid: string;
      readonly signature: string;
    }
  | { readonly type: 'hand-over'; readonly to: string }
  | { readonly type: 'pause'; readonly reason: string }
  | { readonly type: 'resume' }
  | { readonly type: 'scrap'; readonly reason: string }
  | { readonly type: 'close' };

/** The intents of a type. */
export type IntentOf<T extends Intent['type']> = Intent & { readonly type: T };
