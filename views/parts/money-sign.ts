import { createContext } from 'preact';
import { moneySign } from '../words/format.ts';
import { usReading } from '../words/reading.ts';

/** The sign beside every field a sum of money is typed into; provided once for each page and part. */
export const MoneySign = createContext(moneySign(usReading));
