/** Which kit is open, remembered: a page that is loaded again opens it again. */
import type { Keeper } from '../settings/keeper';

const OPEN_KIT = 'kit';

/** @returns its id; null: none was open */
export const kitLeftOpen = (keeper: Keeper): string | null => keeper.get(OPEN_KIT) || null;

export const rememberOpenKit = (keeper: Keeper, id: string | null): void => keeper.set(OPEN_KIT, id ?? '');
