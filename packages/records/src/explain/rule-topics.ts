import { sayList, type Voice } from '@commensal/report';

/** What each rule judges, within a sentence. A test holds the list against the rules. */
export const TOPICS: Readonly<Record<string, string>> = {
  gape: 'swallowing',
  appetite: 'what it eats or harms',
  rivalry: 'fights',
  company: 'company of its own kind',
  shelter: 'shelter',
  'swimming-room': 'room to swim',
  water: 'water',
  niche: 'sharing food',
  escape: 'ways out of the tank',
  'care-tier': 'how hard it is to keep',
  'rock-crowding': 'room on the rock',
  dominance: 'who rules the tank',
  nitrogen: 'the load on the filter',
  maturity: 'the age of the tank',
  quarantine: 'quarantine',
  lockout: 'a free place for a newcomer',
  'family-batch': 'kin going in together',
  'entry-order': 'the order of entry',
  'entry-gap': 'the size of a batch',
};

/** What a rule judges; one without a topic by its id. */
export const topicOf = (rule: string): string => TOPICS[rule] ?? rule;

/** What several rules judge, in a row. */
export const topicsOf = (voice: Voice, rules: readonly string[]): string => sayList(voice, rules.map(topicOf));
