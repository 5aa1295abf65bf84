import type { JarKind, Mouth } from '../../shared/jar.ts';
import type { Cents } from '../../shared/money.ts';
import type { CalendarDate } from '../../shared/week.ts';

export interface Supply {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly packQuantity: number;
  readonly packPrice: Cents;
  readonly onHand: number;
}

export interface Material {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly keepsDaysCold: number;
  readonly keepsMonthsFrozen: number | null;
  readonly quartsPerUnit: number;
  /** What waits now: the sum of its events, never below 0. */
  readonly waiting: number;
  /** The same by the day by which it must be used; null where none was said. */
  readonly waitingBy: readonly { readonly quantity: number; readonly useBy: CalendarDate | null }[];
}

export interface JarStock {
  readonly kind: JarKind;
  /** Full, empty and away, always: whatever stands full on the shelf is owned, however it came there. */
  readonly owned: number;
  /** Standing full on the shelf, by the ledger of its lots; what was bought full comes in jars that are not filled again. */
  readonly full: number;
  /** Empty jars on hand: what was emptied, bought and counted less what was filled; never below 0. */
  readonly empty: number;
  /** Given away full and expected back. */
  readonly away: number;
  readonly price: Cents;
  readonly pack: number;
  readonly returnShare: number;
}

export interface LidStock {
  readonly mouth: Mouth;
  readonly onHand: number;
  readonly box: number;
  readonly boxPrice: Cents;
}
