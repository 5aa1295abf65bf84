import type { SuspectJarProps } from '../../views/pages/shelf/suspect-jar.tsx';

/**
 * A jar found swollen, leaking or unsealed on the shelf, in our own sentences after USDA, Complete Guide to Home Canning,
 * Guide 1, "Identifying and handling spoiled canned food" (read in an archive copy of the guide).
 */
export const suspectJarProps: SuspectJarProps = {
  title: 'Do not taste it. Treat it as if it held the botulism toxin.',
  steps: [
    'Still sealed, though swollen: put it unopened into a heavy garbage bag, close the bag, and put it in the trash or bury it.',
    'Unsealed, open or leaking: wear gloves, lay jar and lid on their sides in a large pot, and wash your hands well.',
    'Without splashing add water until it stands at least 1 inch above everything, cover, bring to a boil, and boil for 30 minutes.',
    'Let it cool; then throw jar, lid and food away, where no person or animal can get at them.',
    'Clean everything the food touched, can opener, hands and cloths included, with a solution of 1 part chlorine bleach to 5 parts water.',
    'Were there others from the same batch? Look at each of them before you open one.',
  ],
  source:
    'After USDA, Complete Guide to Home Canning, Guide 1: identifying and handling spoiled canned food. For less acid foods and tomatoes it is a rule; we keep to it for every jar. When in doubt, ask your local extension service.',
};
