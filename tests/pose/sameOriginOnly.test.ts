import { describe, expect, it, vi } from 'vitest';
import { allowSameOriginOnly, type TalkingScope } from '../../src/pose/sameOriginOnly.ts';

const OURS = 'http://localhost:4173';
const ELSEWHERE = 'https://usage.example/v1/log';

/** Just enough of the browser's request object, with the same calls. */
class FakeRequest extends EventTarget {
  readonly log: string[] = [];
  open(_method: string, url: string): void {
    this.log.push(`open ${url}`);
  }
  setRequestHeader(name: string): void {
    this.log.push(`header ${name}`);
  }
  send(): void {
    this.log.push('send');
  }
}

function locked(): { scope: TalkingScope; fetched: string[]; beacons: string[] } {
  const fetched: string[] = [];
  const beacons: string[] = [];
  const scope = {
    fetch: (input: RequestInfo | URL) => {
      fetched.push(input instanceof Request ? input.url : String(input));
      return Promise.resolve(new Response('ok'));
    },
    location: { href: `${OURS}/assets/worker.js`, origin: OURS },
    XMLHttpRequest: class extends FakeRequest {} as unknown as typeof XMLHttpRequest,
    navigator: { sendBeacon: (url: string) => beacons.push(url) > 0 } as unknown as Navigator,
  };
  allowSameOriginOnly(scope);
  return { scope, fetched, beacons };
}

describe('a locked worker', () => {
  it('fetches from its own origin, from data and from blobs of it', async () => {
    const { scope, fetched } = locked();
    for (const address of ['/models/a.task', `${OURS}/wasm/x.wasm`, 'data:,x', `blob:${OURS}/1-2-3`]) {
      expect((await scope.fetch(address)).ok).toBe(true);
    }
    expect((await scope.fetch(new Request(`${OURS}/y`))).ok).toBe(true);
    expect(fetched).toHaveLength(5);
  });

  it('refuses every other origin without an exception', async () => {
    const { scope, fetched } = locked();
    for (const address of [ELSEWHERE, 'http://localhost:9999/x', 'https://localhost:4173/x', '//usage.example/x', `blob:https://usage.example/1`]) {
      expect((await scope.fetch(address)).status).toBe(403);
    }
    expect((await scope.fetch(new Request(ELSEWHERE))).status).toBe(403);
    expect((await scope.fetch(new URL(ELSEWHERE))).status).toBe(403);
    expect(fetched).toEqual([]);
  });

  it('lets a request object fail later, as if the network were down', async () => {
    vi.stubGlobal('ProgressEvent', Event);
    const { scope } = locked();
    const request = new scope.XMLHttpRequest!() as unknown as FakeRequest & { onEvent?: unknown };
    const events: string[] = [];
    request.addEventListener('error', () => events.push('error'));
    request.addEventListener('loadend', () => events.push('loadend'));
    request.open('POST', ELSEWHERE);
    request.setRequestHeader('a');
    request.send();
    expect(events).toEqual([]);
    await Promise.resolve();
    expect(events).toEqual(['error', 'loadend']);
    expect(request.log).toEqual([]);
    request.open('GET', '/models/a.task');
    request.send();
    expect(request.log).toEqual(['open /models/a.task', 'send']);
    vi.unstubAllGlobals();
  });

  it('sends no beacon elsewhere', () => {
    const { scope, beacons } = locked();
    expect(scope.navigator?.sendBeacon(ELSEWHERE)).toBe(false);
    expect(scope.navigator?.sendBeacon('/here')).toBe(true);
    expect(beacons).toEqual(['/here']);
  });
});
