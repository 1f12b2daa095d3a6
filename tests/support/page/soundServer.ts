/**
 * A sound server of a test's own (PulseAudio) as the stand-in for audio interfaces: its inputs come, go, are muted,
 * suspended, and carry as many channels as are wanted. It touches no sound card and no server of the person's own. Linux.
 */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';

const runs = (program: string): boolean => spawnSync(program, ['--version'], { stdio: 'ignore' }).status === 0;

/** @returns why there is none, or null where it can be started */
export function soundServerMissing(): string | null {
  if (process.platform !== 'linux') return 'only Linux can give one browser a sound server of its own';
  if (runs('pulseaudio') && runs('pactl')) return null;
  return 'no PulseAudio here; install pulseaudio and pulseaudio-utils';
}

/** As soundServerMissing, and on Debian as root installs it first where there is none. */
export function installSoundServer(): string | null {
  const missing = soundServerMissing();
  const isDebian = existsSync('/etc/os-release') && /^ID="?debian"?$/m.test(readFileSync('/etc/os-release', 'utf8'));
  if (missing === null || !isDebian || process.getuid?.() !== 0) return missing;
  console.log('No PulseAudio here: installing it with apt-get.');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'pulseaudio', 'pulseaudio-utils']]) {
    const step = spawnSync('apt-get', args, { env, stdio: ['ignore', 'inherit', 'inherit'] });
    if (step.status !== 0) return `${missing}: apt-get ${args.join(' ')} failed`;
  }
  return soundServerMissing();
}

export interface InputWish {
  /** letters, digits, `_` */
  name: string;
  /** what the browser lists */
  label: string;
  /** 2 unless told */
  channels?: number;
  /** as the system names them, `front-left,front-right` or `aux0,aux1,…` unless told */
  channelMap?: string;
  /** Hz; 48000 unless told */
  sampleRate?: number;
}

const auxMap = (channels: number): string => Array.from({ length: channels }, (_, i) => `aux${i}`).join(',');
const auxOr = (wish: InputWish, channels: number): string =>
  wish.channelMap ?? (channels === 2 ? 'front-left,front-right' : auxMap(channels));

export class SoundServer {
  /** for a browser's environment */
  readonly env: Record<string, string>;
  private readonly folder = mkdtempSync(join(tmpdir(), 'sound-server-'));
  private daemon: ChildProcess | null = null;
  private readonly inputs = new Map<string, { wish: InputWish; modules: string[] }>();
  private readonly players = new Map<string, ChildProcess>();

  private constructor() {
    const socket = join(this.folder, 'native');
    this.env = {
      ...(process.env as Record<string, string>),
      XDG_RUNTIME_DIR: this.folder,
      PULSE_SERVER: `unix:${socket}`,
      PULSE_COOKIE: join(this.folder, 'cookie'),
      PULSE_STATE_PATH: this.folder,
    };
  }

  /** With a silent output as its only device. The caller stops it. */
  static async start(): Promise<SoundServer> {
    const server = new SoundServer();
    await server.startDaemon();
    return server;
  }

  /** What `pactl` answers. @throws where it refuses */
  pactl(...args: string[]): string {
    const asked = spawnSync('pactl', args, { env: this.env, encoding: 'utf8', timeout: 10_000 });
    if (asked.status !== 0) throw new Error(`pactl ${args.join(' ')}: ${asked.stderr || asked.error?.message}`);
    return asked.stdout.trim();
  }

  /** An input as an interface would give it; silent until `play`. */
  addInput(wish: InputWish): void {
    const { name, label, channels = 2, sampleRate = 48_000 } = wish;
    const map = auxMap(channels);
    const described = (what: string): string => `"device.description='${what}'"`;
    const sink = this.pactl(
      'load-module',
      'module-null-sink',
      `sink_name=${name}_play`,
      `rate=${sampleRate}`,
      `channels=${channels}`,
      `channel_map=${map}`,
      'format=float32le',
      `sink_properties=${described(`${label} (play)`)}`,
    );
    const source = this.pactl(
      'load-module',
      'module-remap-source',
      `source_name=${name}`,
      `master=${name}_play.monitor`,
      `rate=${sampleRate}`,
      `channels=${channels}`,
      `channel_map=${auxOr(wish, channels)}`,
      `master_channel_map=${map}`,
      'remix=no',
      `source_properties=${described(label)}`,
    );
    this.inputs.set(name, { wish, modules: [source, sink] });
  }

  /** The system's own choice from now on. */
  makeDefault(name: string): void {
    this.pactl('set-default-source', name);
  }

  /** As pulled out; the system may move whoever listens to another one. */
  unplug(name: string): void {
    this.stopPlaying(name);
    const { modules } = this.input(name);
    this.inputs.delete(name);
    for (const id of modules) this.pactl('unload-module', id);
  }

  mute(name: string, on: boolean): void {
    this.pactl('set-source-mute', name, on ? '1' : '0');
  }

  suspend(name: string, on: boolean): void {
    this.pactl('suspend-source', name, on ? '1' : '0');
  }

  /** What listens: numbers for `pactl`, and the source that each hears. */
  listeners(): { id: string; source: string }[] {
    const sources = new Map(rows(this.pactl('list', 'short', 'sources')).map(([id = '', name = '']) => [id, name]));
    const listens = rows(this.pactl('list', 'short', 'source-outputs'));
    // a remapped source listens to its own master: no client
    return listens
      .filter((row) => row[2] !== '-')
      .map(([id = '', source = '']) => ({ id, source: sources.get(source) ?? source }));
  }

  /** Whoever listens hears this one from now on. */
  moveListeners(name: string): void {
    for (const { id } of this.listeners()) this.pactl('move-source-output', id, name);
  }

  /** Plays into an input without end, from where the last one stopped. @param channels full scale ±1, equally long */
  play(name: string, channels: readonly Float32Array[]): void {
    this.stopPlaying(name);
    const { wish } = this.input(name);
    const rate = wish.sampleRate ?? 48_000;
    const player = spawn(
      'pacat',
      [
        '--playback',
        `--device=${name}_play`,
        '--raw',
        '--format=float32le',
        `--rate=${rate}`,
        `--channels=${channels.length}`,
        `--channel-map=${auxMap(channels.length)}`,
        '--no-remix',
        '--no-remap',
        '--latency-msec=1000',
      ],
      { env: this.env, stdio: ['pipe', 'ignore', 'ignore'] },
    );
    this.players.set(name, player);
    // the server is gone, or the player was stopped
    player.stdin?.on('error', () => undefined);
    player.on('error', () => undefined);
    const bytes = interleaved(channels);
    const block = 4 * channels.length * 8192;
    let at = 0;
    const feed = (): void => {
      while (player.stdin?.writable) {
        const part = bytes.subarray(at, at + block);
        at = at + block >= bytes.length ? 0 : at + block;
        if (!player.stdin.write(part)) break;
      }
    };
    player.stdin?.on('drain', feed);
    feed();
  }

  stopPlaying(name: string): void {
    this.players.get(name)?.kill('SIGKILL');
    this.players.delete(name);
  }

  /** The server hangs, and goes on. */
  freeze(on: boolean): void {
    this.daemon?.kill(on ? 'SIGSTOP' : 'SIGCONT');
  }

  /** Killed without a word; what played and listened is cut off. */
  async kill(): Promise<void> {
    for (const name of this.players.keys()) this.stopPlaying(name);
    const { daemon } = this;
    this.daemon = null;
    if (!daemon || daemon.exitCode !== null) return;
    const gone = new Promise((resolve) => daemon.once('exit', resolve));
    daemon.kill('SIGKILL');
    await gone;
  }

  /** Comes back after `kill`, with the same inputs, silent. */
  async comeBack(): Promise<void> {
    await this.startDaemon();
    const wishes = [...this.inputs.values()].map(({ wish }) => wish);
    for (const wish of wishes) this.addInput(wish);
  }

  async stop(): Promise<void> {
    await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }

  private input(name: string): { wish: InputWish; modules: string[] } {
    const found = this.inputs.get(name);
    if (!found) throw new Error(`the sound server has no input ${name}`);
    return found;
  }

  private async startDaemon(): Promise<void> {
    const socket = join(this.folder, 'native');
    rmSync(socket, { force: true });
    const flags = ['-n', '--daemonize=no', '--exit-idle-time=-1', '--use-pid-file=no', '--log-target=stderr'];
    const load = `--load=module-native-protocol-unix socket=${socket} auth-anonymous=1`;
    this.daemon = spawn('pulseaudio', [...flags, load], { env: this.env, stdio: 'ignore' });
    this.daemon.on('error', () => undefined);
    for (let tries = 0; ; tries++) {
      try {
        this.pactl('info');
        break;
      } catch (thrown) {
        if (tries >= 50) throw thrown;
        await sleep(100);
      }
    }
    this.pactl('load-module', 'module-null-sink', 'sink_name=out', 'rate=48000');
  }
}

const rows = (text: string): string[][] =>
  text
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => line.split('\t'));

function interleaved(channels: readonly Float32Array[]): Buffer {
  const length = channels[0]?.length ?? 0;
  const all = new Float32Array(length * channels.length);
  channels.forEach((channel, c) => {
    for (let i = 0; i < length; i++) all[i * channels.length + c] = channel[i] as number;
  });
  return Buffer.from(all.buffer);
}

/** One test's server: started, handed over, stopped. */
export async function withSoundServer(body: (server: SoundServer) => Promise<void>): Promise<void> {
  const server = await SoundServer.start();
  try {
    await body(server);
  } finally {
    await server.stop();
  }
}
