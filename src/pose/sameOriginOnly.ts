/**
 * Keeps a worker's talk on the machine: requests to any origin but our own are refused before they start.
 *
 * The pose engine tries to post usage data to its maker every minute and when it is closed. The server's
 * content security policy stops that already; this is the second lock, for a server that forgets the header, and
 * it refuses as a failed request would look, so that the engine gives up without a complaint in the console.
 */

/** The parts of a worker's global that can reach the network. */
export interface TalkingScope {
  fetch: typeof fetch;
  readonly location: { readonly href: string; readonly origin: string };
  readonly XMLHttpRequest?: typeof XMLHttpRequest;
  readonly navigator?: Navigator;
}

/**
 * Locks a worker's global. Call before the engine is imported.
 *
 * @param scope the worker's global
 */
export function allowSameOriginOnly(scope: TalkingScope): void {
  const isOurs = (address: string): boolean => {
    const url = new URL(address, scope.location.href);
    // Data and blob addresses never leave the machine.
    return url.protocol === 'data:' || url.origin === scope.location.origin;
  };

  const realFetch = scope.fetch.bind(scope);
  scope.fetch = (input, init) => {
    const address = input instanceof Request ? input.url : String(input);
    return isOurs(address) ? realFetch(input, init) : Promise.resolve(new Response(null, { status: 403, statusText: 'kept on this machine' }));
  };

  if (scope.navigator?.sendBeacon) {
    const realBeacon = scope.navigator.sendBeacon.bind(scope.navigator);
    scope.navigator.sendBeacon = (url, data) => isOurs(String(url)) && realBeacon(url, data);
  }

  const Xhr = scope.XMLHttpRequest;
  if (!Xhr) return;
  const refused = new WeakSet<XMLHttpRequest>();
  const realOpen = Xhr.prototype.open;
  const realSend = Xhr.prototype.send;
  const realHeader = Xhr.prototype.setRequestHeader;
  Xhr.prototype.open = function (this: XMLHttpRequest, method: string, url: string | URL, ...rest: [boolean?, string?, string?]): void {
    if (isOurs(String(url))) {
      refused.delete(this);
      realOpen.call(this, method, url, rest[0] ?? true, rest[1], rest[2]);
    } else {
      refused.add(this);
    }
  };
  Xhr.prototype.setRequestHeader = function (this: XMLHttpRequest, name: string, value: string): void {
    if (!refused.has(this)) realHeader.call(this, name, value);
  };
  Xhr.prototype.send = function (this: XMLHttpRequest, body?: Document | XMLHttpRequestBodyInit | null): void {
    if (!refused.has(this)) {
      realSend.call(this, body);
      return;
    }
    // As with a network that is down: the error comes later, never while `send` runs.
    queueMicrotask(() => {
      this.dispatchEvent(new ProgressEvent('error'));
      this.dispatchEvent(new ProgressEvent('loadend'));
    });
  };
}
