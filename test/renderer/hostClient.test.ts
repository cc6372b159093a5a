/** The host over a line: one method for each call, and events put together again from the pieces of a stream. */
import { expect, test, vi } from 'vitest';
import { CALLS, decode, encode, frameOf, type HostEvent, idleFrame } from '#host';
import { hostOver, LoopbackLine } from '../../renderer/state/hostClient.ts';

test('every declared call goes out by its name', async () => {
  const called: string[] = [];
  const host = hostOver({
    call: async (name) => called.push(name),
    listen: () => () => undefined,
  });
  for (const name of Object.keys(CALLS) as (keyof typeof CALLS)[]) await host[name]({} as never);
  expect(called).toEqual(Object.keys(CALLS));
});

test('a call over loopback is posted in the wire’s form and its answer read', async () => {
  const asked: { address: string; body: unknown }[] = [];
  const line = new LoopbackLine(async (address, init) => {
    asked.push({ address, body: decode(init?.body as Uint8Array) });
    return new Response(encode({ ok: true, value: null }));
  });
  expect(await line.call('leave', { a: 1 })).toEqual({ ok: true, value: null });
  expect(asked).toEqual([{ address: 'call/leave', body: { a: 1 } }]);
});

test('a call that is refused fails with the sentence that came', async () => {
  const line = new LoopbackLine(async () => new Response('The address was used already.', { status: 403 }));
  await expect(line.call('leave', {})).rejects.toThrow('The address was used already.');
});

test('events arrive whole, however the stream was cut, and again after it broke', async () => {
  const event: HostEvent = { kind: 'command', command: 'book.save' };
  const frame = frameOf(event);
  const bytes = [...frame, ...idleFrame(), ...frame];
  let streams = 0;
  const line = new LoopbackLine(async () => {
    streams++;
    const body = new ReadableStream<Uint8Array>({
      start(controller) {
        for (let at = 0; at < bytes.length; at += 7) controller.enqueue(Uint8Array.from(bytes.slice(at, at + 7)));
        controller.close();
      },
    });
    return new Response(body);
  });
  const heard: HostEvent[] = [];
  const stop = line.listen((each) => heard.push(each));
  await vi.waitFor(() => expect(heard.length).toBeGreaterThanOrEqual(4), { timeout: 3_000 });
  stop();
  expect(streams).toBeGreaterThanOrEqual(2);
  expect(heard.every((each) => JSON.stringify(each) === JSON.stringify(event))).toBe(true);
});
