import { z } from 'zod';

// Ids are short readable slugs, unique within one household; the brand keeps one noun's id from standing in for another's.
const slug = z
  .string()
  .regex(
    /^[a-z0-9][a-z0-9-]{0,63}$/,
    'Expected an id of small letters, digits and hyphens, at most 64 characters',
  );

export const householdId = slug.brand<'HouseholdId'>();
export const itemId = slug.brand<'ItemId'>();
export const recipeId = slug.brand<'RecipeId'>();
export const lotId = slug.brand<'LotId'>();
export const sourceId = slug.brand<'SourceId'>();
export const cannerId = slug.brand<'CannerId'>();
export const groupId = slug.brand<'GroupId'>();
export const placeId = slug.brand<'PlaceId'>();
export const cropKey = slug.brand<'CropKey'>();

export type HouseholdId = z.output<typeof householdId>;
export type ItemId = z.output<typeof itemId>;
export type RecipeId = z.output<typeof recipeId>;
export type LotId = z.output<typeof lotId>;
export type SourceId = z.output<typeof sourceId>;
export type CannerId = z.output<typeof cannerId>;
export type GroupId = z.output<typeof groupId>;
export type PlaceId = z.output<typeof placeId>;
export type CropKey = z.output<typeof cropKey>;
