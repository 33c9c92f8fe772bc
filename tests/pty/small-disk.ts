import { type ChildProcessWithoutNullStreams, execFileSync, spawn } from 'node:child_process';
import { type App, type OpenOptions, open, program } from './harness.ts';

/*
 * A real file system of a few kilobytes, for as long as a test needs it: a tmpfs in a mount namespace of its own,
 * which Linux lets everybody make who may have a user namespace (unshare and nsenter are of util-linux).
 */

export interface SmallDisk {
  /** Does a line of the shell where the disk is; answers with what it prints. Throws where it fails. */
  run(line: string): string;
  /** Opens the built program where the disk is. */
  openInkling(args: readonly string[], options?: OpenOptions): App;
  /** Takes the disk away. */
  close(): void;
}

/** Mounts a disk of so many kilobytes on a folder; or tells why that can't be done here. */
export async function mountSmallDisk(
  folder: string,
  kilobytes: number,
): Promise<SmallDisk | { readonly why: string }> {
  const mount = 'mount -t tmpfs -o size="$1k" inkling "$0" && echo mounted && cat';
  let holder: ChildProcessWithoutNullStreams;
  const said = await new Promise<string>((resolve) => {
    let heard = '';
    const hear = (piece: Buffer | Error) => {
      heard += piece.toString();
      if (heard.includes('mounted')) resolve('mounted');
    };
    holder = spawn('unshare', ['--map-root-user', '--mount', 'sh', '-c', mount, folder, `${kilobytes}`]);
    holder.stdout.on('data', hear);
    holder.stderr.on('data', hear);
    holder.on('error', hear);
    holder.on('close', () => resolve(heard.trim() || 'unshare ended'));
  });
  if (said !== 'mounted') return { why: said };
  const inside = ['-t', `${holder!.pid}`, '--user', '--mount', '--preserve-credentials'];
  return {
    run: (line) =>
      execFileSync('nsenter', [...inside, 'sh', '-c', line], { encoding: 'utf8', stdio: 'pipe' }),
    openInkling: (args, options) => open(['nsenter', ...inside, process.execPath, program, ...args], options),
    close: () => {
      holder.kill('SIGKILL');
    },
  };
}
