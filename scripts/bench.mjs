/** `npm run bench`: how fast things are, as ratios within one run. Nothing here passes or fails. */
import { ready } from './ready.mjs';

await ready({ build: true });
const { benchSwallow } = await import('../bench/swallow.mjs');
const { benchCheck } = await import('../bench/check.mjs');
benchSwallow();
benchCheck();
