/**
 * Property tests draw the same cases in every run, so that a green run stays green; `COMMENSAL_SEED` draws others, and a seed that
 * ever fails becomes a case of its own test.
 */
import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env.COMMENSAL_SEED ?? 20270301) });
