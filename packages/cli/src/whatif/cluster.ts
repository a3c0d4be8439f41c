import path from 'node:path';
import type { Job } from 'kubernetes-types/batch/v1.js';
import { VERSION } from '../versions.js';

/** A run that is to be split into shards elsewhere. */
export interface SplitRun {
  readonly study: string;
  readonly folder: string;
  readonly shards: number;
  /** Further words of the command, such as those of --format. */
  readonly words: readonly string[];
}

/** A word as a shell takes it whole. */
const quoted = (word: string): string => (/^[A-Za-z0-9_/.=:,@%+-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`);

/** Processors of a shard: shards are to be few and fat, as a task of an array takes about a second to start. */
const CORES = 2;

/**
 * A script that hands a run to Slurm: an array of shards, and the summary once all of them have ended. A task that was killed is run again with `scontrol requeue`, and goes on
 * where it was; the summary refuses to be made of a run that lacks parts.
 */
export function slurmScript({ study, folder, shards, words }: SplitRun): string {
  const at = path.resolve(folder);
  const call = ['whatif', path.resolve(study), '--out', at, ...words].map(quoted).join(' ');
  return `#!/bin/sh
# Hands the study to Slurm in ${shards} shards, with the summary behind them: sh this-file
# What to call may be set beforehand: COMMENSAL="npx commensal" sh this-file
set -eu
: "\${COMMENSAL:=commensal}"
export COMMENSAL
mkdir -p ${quoted(at)}

array=$(sbatch --parsable --export=ALL --job-name=commensal --array=1-${shards} --cpus-per-task=${CORES} --requeue --open-mode=append \\
  --output=${quoted(path.join(at, 'slurm-%a.log'))} <<'SHARD'
#!/bin/sh
exec $COMMENSAL ${call} --shard "$SLURM_ARRAY_TASK_ID/${shards}" --workers "$SLURM_CPUS_PER_TASK" --resume
SHARD
)
sbatch --parsable --export=ALL --job-name=commensal-merge --dependency="afterany:$array" \\
  --output=${quoted(path.join(at, 'slurm-merge.log'))} <<'MERGE'
#!/bin/sh
exec $COMMENSAL whatif --merge ${quoted(at)} --format json --out ${quoted(path.join(at, 'summary.json'))}
MERGE
echo "$array"
`;
}

/**
 * The same as an indexed job of Kubernetes: as many pods as shards, each told its number in JOB_COMPLETION_INDEX. Image and volume claim are to be put in; study and folder are paths inside the pod.
 */
export function kubernetesJob({ study, folder, shards, words }: SplitRun): string {
  const call = ['commensal', 'whatif', study, '--out', folder, ...words].map(quoted).join(' ');
  const job: Job = {
    apiVersion: 'batch/v1',
    kind: 'Job',
    metadata: { name: 'commensal-study' },
    spec: {
      completions: shards,
      parallelism: shards,
      completionMode: 'Indexed',
      backoffLimit: shards,
      template: {
        spec: {
          restartPolicy: 'OnFailure',
          containers: [
            {
              name: 'shard',
              image: `registry.example/commensal:${VERSION}`,
              command: ['/bin/sh', '-c', `exec ${call} --shard "$((JOB_COMPLETION_INDEX + 1))/${shards}" --workers ${CORES} --resume`],
              resources: { requests: { cpu: String(CORES), memory: '1Gi' }, limits: { memory: '2Gi' } },
              volumeMounts: [{ name: 'studies', mountPath: '/studies' }],
            },
          ],
          volumes: [{ name: 'studies', persistentVolumeClaim: { claimName: 'studies' } }],
        },
      },
    },
  };
  return `${JSON.stringify(job, null, 2)}\n`;
}
