/** A Slurm of one machine, started from the packages of Debian for one test and stopped after it. */
import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';

const NEEDED = ['sbatch', 'squeue', 'scontrol', 'slurmctld', 'slurmd', 'munged', 'runuser'];

const isThere = (command: string): boolean => spawnSync('sh', ['-c', `PATH="$PATH:/usr/sbin:/sbin" command -v ${command}`]).status === 0;

/** Why it cannot be started here; undefined where it can. */
export function whyNoSlurm(): string | undefined {
  const missing = NEEDED.filter((command) => !isThere(command));
  if (missing.length > 0) return `not installed: ${missing.join(', ')} (Debian packages slurm-wlm and munge)`;
  return process.getuid?.() === 0 ? undefined : 'its daemons need root';
}

export interface Slurm {
  readonly env: NodeJS.ProcessEnv;
  readonly run: (command: string, args: readonly string[]) => string;
  readonly stop: () => Promise<void>;
}

const PATH = `${process.env.PATH}:/usr/sbin:/sbin`;

const configOf = (folder: string, host: string): string => `ClusterName=commensal
SlurmctldHost=${host}(127.0.0.1)
SlurmUser=root
SlurmctldPort=16817
SlurmdPort=16818
AuthType=auth/munge
CredType=cred/munge
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
ReturnToService=2
MpiDefault=none
SlurmdParameters=config_overrides
SchedulerParameters=sched_interval=1,batch_sched_delay=0
MinJobAge=3600
StateSaveLocation=${folder}/state
SlurmdSpoolDir=${folder}/spool
SlurmctldPidFile=${folder}/slurmctld.pid
SlurmdPidFile=${folder}/slurmd.pid
SlurmctldLogFile=${folder}/slurmctld.log
SlurmdLogFile=${folder}/slurmd.log
NodeName=${host} NodeAddr=127.0.0.1 CPUs=8 RealMemory=1000 State=UNKNOWN
PartitionName=all Nodes=ALL Default=YES MaxTime=INFINITE State=UP OverSubscribe=FORCE:8
`;

function startMunge(): void {
  if (spawnSync('munge', ['-n'], { stdio: 'ignore' }).status === 0) return;
  mkdirSync('/run/munge', { recursive: true });
  execFileSync('chown', ['munge:munge', '/run/munge']);
  chmodSync('/run/munge', 0o755);
  if (!existsSync('/etc/munge/munge.key'))
    execFileSync('sh', ['-c', 'umask 077; head -c 1024 /dev/urandom > /etc/munge/munge.key; chown munge:munge /etc/munge/munge.key']);
  execFileSync('runuser', ['-u', 'munge', '--', '/usr/sbin/munged'], { env: { ...process.env, PATH } });
}

/** Starts it and waits until its one node takes jobs. */
export async function startSlurm(): Promise<Slurm> {
  const folder = mkdtempSync(path.join(tmpdir(), 'commensal-slurm-'));
  for (const name of ['state', 'spool']) mkdirSync(path.join(folder, name));
  const config = path.join(folder, 'slurm.conf');
  writeFileSync(config, configOf(folder, hostname().split('.')[0] ?? 'localhost'));
  startMunge();
  const env = { ...process.env, PATH, SLURM_CONF: config };
  const daemons = [
    spawn('slurmctld', ['-D', '-f', config], { env, stdio: 'ignore' }),
    spawn('slurmd', ['-D', '-f', config, '-N', hostname().split('.')[0] ?? 'localhost'], { env, stdio: 'ignore' }),
  ];
  const run = (command: string, args: readonly string[]): string => execFileSync(command, args, { env, encoding: 'utf8' });
  const stop = async (): Promise<void> => {
    for (const daemon of daemons) daemon.kill('SIGTERM');
    await wait(500);
    for (const daemon of daemons) daemon.kill('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
  };
  for (let look = 0; look < 100; look += 1) {
    const { stdout } = spawnSync('sinfo', ['--noheader', '--format=%T'], { env, encoding: 'utf8' });
    if (/^(idle|mixed|allocated)/m.test(stdout ?? '')) return { env, run, stop };
    await wait(300);
  }
  const log = spawnSync('sh', ['-c', `tail -n 20 ${folder}/*.log`], { encoding: 'utf8' }).stdout;
  await stop();
  throw new Error(`Slurm did not come up:\n${log}`);
}
