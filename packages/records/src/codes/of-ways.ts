import { type Codes, codesOf } from './code.js';

/** Of names, sources, feeding, company and needs. */
export const OF_WAYS: Codes = {
  ...codesOf('record', 'error', {
    'family-ending': [
      'The family is not spelt like the name of a family.',
      'Names of animal families end in idae. Stand-ins, folders and batches go by them.',
      'Look at the spelling, and whether it is a subfamily or an order.',
    ],
    'own-name-as-synonym': ['The name of the species stands among its synonyms.', 'A synonym is another name.', 'Take it out.'],
    'vernacular-twice': [
      'A common name stands twice in one language.',
      'It says nothing new; mostly the language of one is wrong.',
      'Take one of them out, or correct its language.',
    ],
    'names-itself': [
      'A record names itself as a partner, a look-alike or a replacement.',
      'Mostly it was copied from the record of the other species.',
      'Name the species that was meant, or take it out.',
    ],
    'release-order': [
      'A record went out of use before it was added.',
      'Releases are counted by year and number; readers of old releases lean on them.',
      'Correct the one that is wrong.',
    ],
    'unknown-source': [
      'A source is not in the bibliography.',
      'A key without an entry leads nowhere.',
      'Take the key that the message offers, or add the entry to the bibliography, as CSL-JSON.',
    ],
    'food-not-listed': [
      'A food is spoken of that the diet does not have.',
      'What it takes as tiny animals, and what it lives on alone, are foods like the others.',
      'Add it to `feeding.eats.foods`, or take it out.',
    ],
    'fish-eating-diet': [
      'Fish eating and foods contradict each other.',
      'Whether it eats fishes decides how grave it is that it could. Predicted trophic guilds do not count.',
      'Let both say the same, from stomachs or from keeping it.',
    ],
    'temperature-outside-limits': [
      'The temperature it should have lies outside what it survives.',
      'The one is what a keeper aims at, the other what must never be passed.',
      'Correct the one that is wrong; mostly they have changed places.',
    ],
    'gravity-for-salinity': [
      'A specific gravity is given as salinity.',
      'Hydrometers read 1.025 where the salinity is 33: the animal would seem to live in fresh water.',
      'Convert it, as the message does.',
    ],
    'unknown-exception': [
      'An exception names a code that there is none of, or one that is never right as it stands.',
      'It excepts nothing.',
      'Copy the code from the message that was reported; where the page on the code has no exception, put right what was reported.',
    ],
  }),
  ...codesOf('record', 'warning', {
    'exception-not-needed': [
      'An exception is needed by nothing.',
      'The figure was corrected since, or the place is misspelt. Left behind, it would hide a mistake to come.',
      'Take it out, or correct its place.',
    ],
    'synonym-form': [
      'A synonym is not written like a scientific name.',
      'People look for bare names: authors and years keep them from being found.',
      'Write genus and species alone; common names go into `vernacularNames`.',
      'Where the name was published with other signs.',
    ],
    'scientific-as-vernacular': [
      'A scientific name stands among the common names.',
      'Lists for people would show it twice.',
      'Take it out; other scientific names go into `synonyms`.',
      'Where people really call it by its scientific name, as with some genera.',
    ],
    'diet-against-mode': [
      'What it eats does not go with how it feeds.',
      'A grazer without algae, a plankton picker without plankton: one of the two is of another species, or the list of foods is not complete.',
      'Add what it lives on, or give the mode that fits.',
      'Where it feeds in a way that the words do not have.',
    ],
    'diet-without-harm': [
      'It eats what is kept, and is said to harm nothing of the kind.',
      'Victims are told from `conduct.harms` alone: who eats corals and is said to harm none will be put among corals.',
      'Add the harm, with how badly and how often.',
      'Where it takes only what is not kept, or what is dead.',
    ],
    'fish-eating-mode': [
      'It lives on fishes and feeds in a way that takes none.',
      'Whoever lives on fishes lies in wait, hunts, picks, crushes, scavenges or stings.',
      'Write `opportunist` where it takes one when it can, or give the mode that fits.',
      'Where stomachs were full of fishes all the same.',
    ],
    'fish-eating-gape': [
      'Fish eating and the class of its gape do not go together.',
      'What eats fishes swallows them or harms them otherwise, and a mouth that stretches is there to swallow.',
      'Correct the class of the gape, or say in `conduct.harms` what it does to fishes.',
      'Where the mouth stretches for other prey.',
    ],
    'gape-against-mode': [
      'The class of its gape does not go with how it feeds.',
      'What stings is limited by no gape, and what grazes has no mouth that stretches.',
      'Write `notGapeLimited`, or give the mode that fits.',
      'Where a source describes it so.',
    ],
    'tier-without-provisions': [
      'It is hard to keep, and the record does not say what is needed.',
      'A tier of 2 or 3 warns people off; what makes the difference is what helps them.',
      'Add `needs.provisions`, or give tier 1.',
      'Where it fails for reasons that nobody knows.',
    ],
    'captive-bred-harder': [
      'Tank-raised animals are said to be harder to keep than wild ones.',
      'They know tanks and prepared food. Mostly the two tiers have changed places.',
      'Correct the one that is wrong.',
      'Where tank-raised animals of the species are known to be weak.',
    ],
    'provision-at-odds': [
      'A provision is asked for that the rest of the record speaks against.',
      'A lid for what never leaves the tank, sponge food for what eats none: keepers would do the one and lose the animal by the other.',
      'Take the provision out, or correct what speaks against it.',
      'Where it is needed for another reason.',
    ],
    'company-at-odds': [
      'Company, numbers and pugnacity do not go together.',
      'A solitary animal is one, a pair two, and no group works whose members bite each other.',
      'Correct the one that is wrong.',
      'Where numbers differ between the young and the grown.',
    ],
  }),
};
