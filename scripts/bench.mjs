/**
 * `npm run bench`: how fast and how large things are. Speed is told as ratios of ways measured in turns within one run, medians of several
 * rounds. A goal that is not reached is printed as such and stops nothing; a wrong answer makes the run fail.
 */
import { root } from './fingerprint.mjs';
import { ready } from './ready.mjs';

await ready({ build: true });
const { benchSwallow } = await import('../bench/swallow.mjs');
const { benchCheck } = await import('../bench/check.mjs');
const { benchRecordsCheck } = await import('../bench/records-check.mjs');
const { benchSizes } = await import('../bench/sizes.mjs');
const { benchStartUp } = await import('../bench/start-up.mjs');
const { benchValidation } = await import('../bench/validation.mjs');
const { benchRecordProblems } = await import('../bench/record-problems.mjs');
const { benchBestSet } = await import('../bench/best-set.mjs');
const { checkCrossings } = await import('../bench/crossings.mjs');
const { benchIntroductions } = await import('../bench/introductions.mjs');
const { benchPlan } = await import('../bench/plan.mjs');
const { benchCandidates } = await import('../bench/candidates.mjs');
const { benchSlowWhatIf, benchWhatIf, benchWhatIfMemory } = await import('../bench/what-if.mjs');
const { benchWhatIfFiles } = await import('../bench/what-if-files.mjs');
const { summary } = await import('../bench/table.mjs');

// First, while the engine has compiled for nothing else: a run of a study has a process of its own.
benchWhatIf(12);
benchSwallow(12);
benchSwallow(40);
if (!checkCrossings()) process.exitCode = 1;
benchCheck(12, 0.2);
benchCheck(40, 2);
if (!(await benchBestSet())) process.exitCode = 1;
if (!benchIntroductions()) process.exitCode = 1;
benchPlan();
if (!benchCandidates()) process.exitCode = 1;
for (const animals of [5, 20, 40]) benchWhatIf(animals);
benchSlowWhatIf();
benchWhatIfMemory(Number(process.env.COMMENSAL_SCENARIOS ?? 1e5));
if (!(await benchWhatIfFiles(root))) process.exitCode = 1;
benchValidation();
benchRecordProblems();
benchRecordsCheck(root);
await benchSizes(root);
benchStartUp(root);
summary();
