import { BASE, closed, date, list, oneKindOf, oneOf, ref, schemaPointer, slug, text } from './parts.js';
import { FORMS } from './species.js';

/** What check and plan print as JSON; the parts they share. */
const shared = {
  subject: closed(
    'Subject',
    'An animal of the finding and the part it plays in it.',
    { id: text('Id of the animal in the document.', 70), role: text('Its part.', 40) },
    ['id', 'role'],
  ),
  datum: closed(
    'Datum',
    'One figure, day, list of words, animal or species that a sentence needs.',
    {
      value: { type: 'number', description: 'A number.' },
      unit: text('UCUM code of its unit; 1 for counts and shares.', 20),
      date: date('A day.'),
      keys: list(text('A word that has a text in the catalogues.', 80), 'Words.'),
      animal: text('Id of an animal.', 70),
      species: slug('Id of a species.'),
    },
    [],
    { dependentRequired: { value: ['unit'], unit: ['value'] }, minProperties: 1 },
  ),
  basis: oneOf(['measured', 'derived', 'imputed', 'practice', 'recalled'], 'The weakest basis used.'),
  level: oneOf(
    ['error', 'warning', 'note'],
    'error: an animal is likely to die or suffer. warning: needs a decision. note: worth knowing.',
  ),
  finding: closed(
    'Finding',
    'What a rule found.',
    {
      key: text('Rule, roles and ids; stable from run to run.', 2000),
      rule: text('Id of the rule.', 80),
      outcome: oneOf(['failed', 'cantTell'], 'failed, or cannot be told from what is known.'),
      level: ref('level'),
      subjects: list(ref('subject'), 'The animals it is about.'),
      message: text('Key of the sentence in the catalogues.', 120),
      data: { type: 'object', description: 'What the sentence needs.', additionalProperties: ref('datum') },
      when: { description: 'First day on which it holds; null where no day applies.', anyOf: [date('A day.'), { type: 'null' }] },
      basis: ref('basis'),
      accepted: text('Why the keeper accepts it.', 500),
    },
    ['key', 'rule', 'outcome', 'level', 'subjects', 'message', 'data', 'when', 'basis'],
  ),
  ruleCounts: closed(
    'RuleCounts',
    'How often a rule came to each outcome.',
    {
      passed: { type: 'integer', description: 'Passed.', minimum: 0 },
      failed: { type: 'integer', description: 'Failed.', minimum: 0 },
      cantTell: { type: 'integer', description: 'Cannot tell.', minimum: 0 },
      inapplicable: { type: 'integer', description: 'Does not apply.', minimum: 0 },
      untested: { type: 'integer', description: '1 where the rule is switched off.', minimum: 0 },
    },
    ['passed', 'failed', 'cantTell', 'inapplicable', 'untested'],
  ),
  levelCounts: closed(
    'LevelCounts',
    'How many at each level.',
    {
      error: { type: 'integer', description: 'Errors.', minimum: 0 },
      warning: { type: 'integer', description: 'Warnings.', minimum: 0 },
      note: { type: 'integer', description: 'Notes.', minimum: 0 },
    },
    ['error', 'warning', 'note'],
  ),
  summary: closed(
    'Summary',
    'Counts over all rules.',
    {
      rules: { type: 'object', description: 'By rule.', additionalProperties: ref('ruleCounts') },
      failed: ref('levelCounts'),
      cantTell: ref('levelCounts'),
      accepted: { type: 'integer', description: 'Findings the keeper has accepted, not counted above.', minimum: 0 },
    },
    ['rules', 'failed', 'cantTell', 'accepted'],
  ),
  caution: closed(
    'Caution',
    'A danger or a duty that comes with a species; not a failure.',
    {
      kind: oneOf(
        ['venom', 'toxin', 'bite', 'sting', 'cut', 'protected', 'medication', 'electricity', 'never-release'],
        'What it is about.',
      ),
      species: list(slug('Id of a species.'), 'The species it is about; none where it is about what else is kept.'),
      severity: oneOf(['painful', 'dangerous', 'duty'], 'How grave it is.'),
      message: text('Key of the sentence in the catalogues.', 120),
      sources: list(slug('Key of an entry in the bibliography.'), 'Where what it says comes from; common practice where left out.'),
    },
    ['kind', 'species', 'severity', 'message'],
  ),
  staleAcceptance: closed(
    'StaleAcceptance',
    'An accepted finding that is no longer found, or whose day has come.',
    {
      key: text('Key of the finding.', 2000),
      why: oneOf(['not-found', 'past-its-day'], 'Why it no longer applies.'),
    },
    ['key', 'why'],
  ),
  versions: closed(
    'Versions',
    'What the result was made with.',
    {
      code: text('Version of the library.', 40),
      schema: text('Version of the schema.', 40),
      data: text('Release of the species records.', 40),
    },
    ['code', 'schema', 'data'],
  ),
};

/** Edits of a situation, by name of their definition. */
const changes = {
  moreRock: closed(
    'MoreRock',
    'Rock is added.',
    {
      kind: { const: 'more-rock', description: 'Which it is.' },
      massKg: { type: 'number', description: 'Mass to add, in kilograms.', exclusiveMinimum: 0 },
    },
    ['kind', 'massKg'],
  ),
  largerTank: closed(
    'LargerTank',
    'A larger tank.',
    {
      kind: { const: 'larger-tank', description: 'Which it is.' },
      lengthCm: { type: 'number', description: 'Length it needs, in centimetres.', exclusiveMinimum: 0 },
      widthCm: { type: 'number', description: 'Width it needs, in centimetres.', exclusiveMinimum: 0 },
      waterL: { type: 'number', description: 'Water it needs, in litres.', exclusiveMinimum: 0 },
    },
    ['kind', 'lengthCm', 'widthCm', 'waterL'],
  ),
  warmerOrCooler: closed(
    'WarmerOrCooler',
    'The water is kept within another range.',
    {
      kind: { const: 'warmer-or-cooler', description: 'Which it is.' },
      lowCel: { type: 'number', description: 'Lowest temperature, degrees Celsius.' },
      highCel: { type: 'number', description: 'Highest temperature, degrees Celsius.' },
    },
    ['kind', 'lowCel', 'highCel'],
  ),
  moreExperience: closed(
    'MoreExperience',
    'A keeper of more experience.',
    {
      kind: { const: 'more-experience', description: 'Which it is.' },
      careTier: { type: 'integer', description: 'Tier kept for a year.', minimum: 1, maximum: 3 },
    },
    ['kind', 'careTier'],
  ),
  provisionMade: closed(
    'ProvisionMade',
    'Provisions are made.',
    {
      kind: { const: 'provision-made', description: 'Which it is.' },
      provisions: list(text('A provision.', 80), 'The provisions.', { minItems: 1 }),
    },
    ['kind', 'provisions'],
  ),
  withoutResident: closed(
    'WithoutResident',
    'A resident finds another home.',
    { kind: { const: 'without-resident', description: 'Which it is.' }, animal: text('Id of the resident.', 70) },
    ['kind', 'animal'],
  ),
  insteadOf: closed(
    'InsteadOf',
    'It comes in place of what was chosen.',
    {
      kind: { const: 'instead-of', description: 'Which it is.' },
      species: list(slug('Id of a species.'), 'What it replaces.', { minItems: 1 }),
    },
    ['kind', 'species'],
  ),
  thisLength: closed(
    'ThisLength',
    'A wish comes in at another length.',
    {
      kind: { const: 'this-length', description: 'Which it is.' },
      species: slug('Id of the species.'),
      lengthCm: { type: 'number', description: 'Length on the day of entry, in centimetres.', exclusiveMinimum: 0 },
    },
    ['kind', 'species', 'lengthCm'],
  ),
  thisCount: closed(
    'ThisCount',
    'Another number of a wish.',
    {
      kind: { const: 'this-count', description: 'Which it is.' },
      species: slug('Id of the species.'),
      count: { type: 'integer', description: 'How many.', minimum: 1 },
    },
    ['kind', 'species', 'count'],
  ),
  notBefore: closed(
    'NotBefore',
    'Nothing goes in before a day.',
    { kind: { const: 'not-before', description: 'Which it is.' }, date: date('The day.') },
    ['kind', 'date'],
  ),
  rockRelaid: closed(
    'RelaidRock',
    'The rock is laid anew, so that nobody holds an old territory.',
    { kind: { const: 'rock-relaid', description: 'Which it is.' }, date: date('The day.') },
    ['kind', 'date'],
  ),
  foodOffered: closed(
    'FoodOffered',
    'A food is offered that some animal lives on.',
    { kind: { const: 'food-offered', description: 'Which it is.' }, food: text('The food.', 80) },
    ['kind', 'food'],
  ),
  withoutCopper: closed(
    'WithoutCopper',
    'The copper is taken out of the water.',
    { kind: { const: 'without-copper', description: 'Which it is.' } },
    ['kind'],
  ),
};

export const check = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/check.schema.json`,
  ...closed(
    'CheckReport',
    'What check returns: what failed, what cannot be told, and counts of everything.',
    {
      $schema: schemaPointer('check'),
      date: date('Day of the situation.'),
      findings: list(ref('finding'), 'What failed and what cannot be told, most serious first.'),
      summary: ref('summary'),
      cautions: list(ref('caution'), 'Dangers and duties that come with the species.'),
      staleAcceptances: list(ref('staleAcceptance'), 'Acceptances to look at again.'),
      versions: ref('versions'),
    },
    ['$schema', 'date', 'findings', 'summary', 'cautions', 'staleAcceptances', 'versions'],
  ),
  $defs: shared,
};

export const plan = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/plan.schema.json`,
  ...closed(
    'Plan',
    'The best set from a wish list, when it goes in, and why the rest was left out.',
    {
      $schema: schemaPointer('plan'),
      date: date('Day of the situation.'),
      chosen: list(ref('chosen'), 'What was chosen, in the order of the wish list.'),
      introductions: list(ref('plannedIntroduction'), 'The days on which it goes in.'),
      leftOut: list(ref('leftOut'), 'What was left out, and why.'),
      proven: { type: 'boolean', description: 'Whether no better set exists under these rules.' },
      gap: { type: 'number', description: 'By how much of priority a better set could at most be better.', minimum: 0 },
      worth: ref('worth'),
      equals: ref('equals'),
      order: ref('orderProof'),
      alternatives: list(ref('alternative'), 'The best sets that hold something this one leaves out, the best first.'),
      impossible: ref('impossible'),
      ifChanged: list(ref('ifChanged'), 'What single changes of the tank as it is would buy, the best first.'),
      findings: list(ref('finding'), 'What check says of the planned tank.'),
      summary: ref('summary'),
      cautions: list(ref('caution'), 'Dangers and duties that come with the species wished for.'),
      staleAcceptances: list(ref('staleAcceptance'), 'Acceptances to look at again.'),
      versions: ref('versions'),
    },
    [
      '$schema',
      'date',
      'chosen',
      'introductions',
      'leftOut',
      'proven',
      'gap',
      'worth',
      'equals',
      'order',
      'alternatives',
      'ifChanged',
      'findings',
      'summary',
      'cautions',
      'staleAcceptances',
      'versions',
    ],
  ),
  $defs: {
    ...shared,
    count: { type: 'integer', description: 'Number of animals.', minimum: 1 },
    chosen: closed('Chosen', 'A wish that is granted.', { species: slug('Id of the species.'), count: ref('count') }, ['species', 'count']),
    plannedLength: closed(
      'PlannedLength',
      'Length on the day of entry.',
      {
        value: { type: 'number', description: 'The length.', exclusiveMinimum: 0 },
        unit: { type: 'string', description: 'UCUM code.', enum: ['cm'] },
        lengthType: oneOf(['TL', 'DM', 'SH'], 'How it is taken.'),
      },
      ['value', 'unit'],
    ),
    plannedAnimals: closed(
      'PlannedAnimals',
      'Animals alike that go in.',
      {
        id: text('Id used in the findings.', 70),
        species: slug('Id of the species.'),
        count: ref('count'),
        length: ref('plannedLength'),
        purchasedOn: date(
          'Day on which it is bought, to be watched apart until it goes in; left out where nothing is told of a holding tank.',
        ),
      },
      ['id', 'species', 'count'],
    ),
    plannedIntroduction: closed(
      'PlannedIntroduction',
      'A day on which animals go in.',
      {
        date: date('The day.'),
        latest: date(
          'Last day on which it can go in at these lengths, with those before it as planned and gaps kept: afterwards one that is there could swallow one of it, or of what comes later. Left out where no such day is near.',
        ),
        animals: list(ref('plannedAnimals'), 'What goes in.', { minItems: 1 }),
        reasons: list(ref('orderReason'), 'What keeps it from going in earlier.'),
      },
      ['date', 'animals', 'reasons'],
    ),
    orderReason: closed(
      'OrderReason',
      'Why a batch does not go in earlier.',
      {
        message: text('Key of the sentence in the catalogues.', 120),
        data: { type: 'object', description: 'What the sentence needs.', additionalProperties: ref('datum') },
      },
      ['message', 'data'],
    ),
    leftOut: closed(
      'LeftOut',
      'A wish that is not granted.',
      {
        species: slug('Id of the species.'),
        count: ref('count'),
        because: list(ref('finding'), 'The errors it would be part of if it came in as well.'),
        conflict: ref('conflict'),
        rather: list(slug('Id of a species.'), 'The chosen species that it would cost.'),
        wouldNeed: list(ref('change'), 'Changes, each tried: any one of them would let it in beside what was chosen.'),
        wouldNeedTogether: list(
          ref('change'),
          'Where none does alone: changes, tried, that together would let it in, and would not without any one of them; none where that was not found.',
        ),
      },
      ['species', 'count', 'because', 'conflict', 'rather', 'wouldNeed', 'wouldNeedTogether'],
    ),
    conflict: closed(
      'Conflict',
      'What it cannot be together with: chosen wishes and residents. Neither, where it cannot be in this tank at all.',
      {
        species: list(slug('Id of a species.'), 'The chosen wishes.'),
        residents: list(text('Id of a resident.', 70), 'The residents.'),
        minimal: { type: 'boolean', description: 'Without any one of the chosen wishes it could come in beside the others named.' },
      },
      ['species', 'residents', 'minimal'],
    ),
    worth: closed(
      'Worth',
      'What a set is worth: the sum of priorities counts first, then the number of animals.',
      {
        priority: { type: 'integer', description: 'Sum of priorities.', minimum: 0 },
        animals: { type: 'integer', description: 'Number of animals.', minimum: 0 },
      },
      ['priority', 'animals'],
    ),
    equals: closed(
      'Equals',
      'Sets worth as much, among which the fewest doubts about errors, then the fewest warnings, then the lowest species ids decide.',
      {
        weighed: { type: 'integer', description: 'How many work and were weighed, this one among them.', minimum: 0 },
        all: { type: 'boolean', description: 'Whether there are no others.' },
      },
      ['weighed', 'all'],
    ),
    orderProof: closed(
      'OrderProof',
      'Whether a better order of the batches exists.',
      {
        proven: {
          type: 'boolean',
          description: 'None breaks less of what is usual: scavengers first, the peaceful before the pugnacious.',
        },
        cost: {
          type: 'number',
          description:
            'Points for what this order breaks: 20 for each pugnacious animal before a peaceful one, 1000 for scavengers that wait, 2 and 1 for those that should be last or early.',
          minimum: 0,
        },
        atLeast: { type: 'number', description: 'Points that no order goes below.', minimum: 0 },
      },
      ['proven', 'cost', 'atLeast'],
    ),
    alternative: closed(
      'Alternative',
      'Another set that works.',
      {
        chosen: list(ref('chosen'), 'What is in it, in the order of the wish list.'),
        worth: ref('worth'),
        gains: list(slug('Id of a species.'), 'What it has that the plan has not, or more of it.'),
        losses: list(slug('Id of a species.'), 'What the plan has that it has not, or less of it.'),
        proven: { type: 'boolean', description: 'Whether no better one exists that differs as it does.' },
      },
      ['chosen', 'worth', 'gains', 'losses', 'proven'],
    ),
    impossible: closed(
      'Impossible',
      'Wishes that have to be in and cannot be together: without any one of them the others could be.',
      {
        species: list(slug('Id of a species.'), 'The wishes.', { minItems: 1 }),
        because: list(ref('finding'), 'What stands in the way.'),
        minimal: { type: 'boolean', description: 'Whether it is known that the others could be.' },
      },
      ['species', 'because', 'minimal'],
    ),
    ifChanged: closed(
      'IfChanged',
      'A change of the tank as it is, and the best set that would follow.',
      {
        change: ref('change'),
        worth: ref('worth'),
        gains: list(slug('Id of a species.'), 'What could then come in that is left out now.'),
        losses: list(slug('Id of a species.'), 'What would then be left out.'),
        proven: { type: 'boolean', description: 'Whether no better set would follow.' },
      },
      ['change', 'worth', 'gains', 'losses', 'proven'],
    ),
    change: oneKindOf('Change', 'An edit of a situation.', changes),
    ...changes,
  },
};

export const rules = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/rules.schema.json`,
  ...closed(
    'RuleList',
    'What each rule asks, needs and assumes.',
    {
      $schema: schemaPointer('rules'),
      rules: list(ref('rule'), 'The rules.', { minItems: 1 }),
    },
    ['$schema', 'rules'],
  ),
  $defs: {
    effect: oneOf(['better', 'worse', 'either', 'neither'], 'What more of it can do to the outcome.'),
    default: closed(
      'RuleDefault',
      'A threshold.',
      {
        value: { type: 'number', description: 'The number used unless settings say otherwise.' },
        unit: text('UCUM code of its unit.', 20),
        basis: oneOf(
          ['measured', 'derived', 'imputed', 'practice', 'recalled', 'choice'],
          'What it rests on; choice: ours, reason in note.',
        ),
        source: slug('Key of an entry in the bibliography.'),
        note: text('Why this number.', 300),
      },
      ['value', 'unit', 'basis'],
    ),
    rule: closed(
      'RuleDescription',
      'One rule.',
      {
        id: text('Its id.', 80),
        question: text('What it asks.', 200),
        scope: oneOf(['animal', 'pair', 'tank'], 'What it looks at: each animal, each ordered pair, or the tank as a whole.'),
        planning: oneOf(['option', 'pair', 'capacity', 'recheck', 'plan', 'option-and-pair'], 'What planning does with it.'),
        monotone: closed(
          'Monotone',
          'What can change its outcome, and which way.',
          { water: ref('effect'), rock: ref('effect'), fewerAnimals: ref('effect'), delay: ref('effect') },
          ['water', 'rock', 'fewerAnimals', 'delay'],
        ),
        needs: list(text('A field of a species record or a situation.', 80), 'What it reads.'),
        sources: list(slug('Key of an entry in the bibliography.'), 'Where its figures come from.'),
        defaults: { type: 'object', description: 'Its thresholds.', additionalProperties: ref('default') },
      },
      ['id', 'question', 'scope', 'planning', 'monotone', 'needs', 'sources', 'defaults'],
    ),
  },
};

const count = (description) => ({ type: 'integer', description, minimum: 0 });

export const coverage = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/coverage.schema.json`,
  ...closed(
    'Coverage',
    'How many records of a set hold each field, by what it rests on.',
    {
      $schema: schemaPointer('coverage'),
      records: { type: 'integer', description: 'How many records were counted.', minimum: 1 },
      forms: list({ type: 'string', description: 'A sort of animal.', enum: FORMS }, 'What sorts of animals they are about.', {
        minItems: 1,
        uniqueItems: true,
      }),
      fields: list(ref('field'), 'The fields, in the order of the schema of a record.', { minItems: 1 }),
      total: ref('counts'),
      families: list(ref('family'), 'All fields together, for each family, in alphabetical order.', { minItems: 1 }),
    },
    ['$schema', 'records', 'forms', 'fields', 'total', 'families'],
  ),
  $defs: {
    counts: closed(
      'CoverageCounts',
      'How often a field rests on what. A list rests on the weakest of its entries.',
      {
        measured: count('Published for the species.'),
        derived: count('Computed from published values.'),
        imputed: count('A stand-in from genus, family or feeding guild.'),
        practice: count('Common practice of the trade.'),
        recalled: count('From memory, unchecked.'),
        none: count('Lists that are known to be empty.'),
        absent: count('Nothing is told: not known, or it does not apply.'),
      },
      ['measured', 'derived', 'imputed', 'practice', 'recalled', 'none', 'absent'],
    ),
    field: closed('FieldCoverage', 'One field.', { field: text('Its path in a record.', 80), counts: ref('counts') }, ['field', 'counts']),
    family: closed(
      'FamilyCoverage',
      'One family.',
      {
        family: text('Its name.', 60),
        records: { type: 'integer', description: 'How many records are of it.', minimum: 1 },
        counts: ref('counts'),
      },
      ['family', 'records', 'counts'],
    ),
  },
};

/** Who may join a tank as it is: what `commensal check --candidates` prints as JSON. */
export const candidates = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/candidates.schema.json`,
  ...closed(
    'Candidates',
    'Which species may join a tank as it is.',
    {
      $schema: schemaPointer('candidates'),
      date: date('Day on which they would go in.'),
      candidates: list(ref('candidate'), 'Species by species, in the order asked for.'),
      cautions: list(ref('caution'), 'Dangers and duties that come with those that may join, and with what is there.'),
      versions: ref('versions'),
    },
    ['$schema', 'date', 'candidates', 'cautions', 'versions'],
  ),
  $defs: {
    candidate: closed(
      'CandidateSpecies',
      'One species.',
      {
        species: slug('Id of the species.'),
        count: { type: 'integer', description: 'How many were asked for: as few as it is to be kept in.', minimum: 1 },
        length: closed(
          'UsualLength',
          'Length at which it usually comes in.',
          {
            value: { type: 'number', description: 'The length.', exclusiveMinimum: 0 },
            unit: { const: 'cm', description: 'Centimetres.' },
          },
          ['value', 'unit'],
        ),
        mayJoin: { type: 'boolean', description: 'Whether no error involves it.' },
        because: list(ref('finding'), 'Errors that involve it, the gravest first.'),
        doubts: { type: 'integer', description: 'How many errors cannot be ruled out.', minimum: 0 },
      },
      ['species', 'count', 'mayJoin', 'because', 'doubts'],
    ),
    subject: shared.subject,
    datum: shared.datum,
    basis: shared.basis,
    level: shared.level,
    finding: shared.finding,
    caution: shared.caution,
    versions: shared.versions,
  },
};
