/** What was cleaned up and dropped, counted, with a switch where it can be left undone: the manuscript is read again then. */
import { useState } from 'react';
import type { ImportedManuscript } from '#host';
import { useBookState, useWorkbench } from '../state/index.ts';
import { Tick, useTools } from '../ui/index.ts';
import { importing as words } from '../ui/texts/import.en.ts';

export function CleanUps({ imported }: { readonly imported: ImportedManuscript }) {
  const { books, host } = useWorkbench();
  const { asking, problem } = useTools();
  const [reading, setReading] = useState(false);
  const mended = useBookState((state) => state.version > 0);
  const { notices, without } = imported;
  const switched = notices.filter((notice) => notice.tidy !== null);
  const plain = notices.filter((notice) => notice.tidy === null);
  const off = without.filter((name) => !switched.some((notice) => notice.tidy === name));

  const again = async (name: string, on: boolean): Promise<void> => {
    if (mended && !(await mayReadAgain())) return;
    await books.settled();
    const next = on ? without.filter((each) => each !== name) : [...without, name];
    const opened = await host.importAgain({ session: books.current.session, without: next });
    if (opened.ok) books.open(opened.value);
    else problem(opened.problem);
  };
  /** One reading at a time: the next begins with what this one leaves. */
  const switchIt = (name: string, on: boolean): void => {
    if (reading) return;
    setReading(true);
    void again(name, on).finally(() => setReading(false));
  };
  const mayReadAgain = async (): Promise<boolean> => {
    const answer = await asking.ask<'again' | 'stay'>({
      title: words.againTitle,
      text: [words.againText],
      answers: [
        { id: 'stay', text: words.stay },
        { id: 'again', text: words.again, look: 'main' },
      ],
      otherwise: 'stay',
    });
    return answer === 'again';
  };
  if (notices.length === 0 && off.length === 0) return null;
  return (
    <div className="clean-ups">
      {(switched.length > 0 || off.length > 0) && (
        <section aria-labelledby="cleaned">
          <h2 id="cleaned">{words.cleaned}</h2>
          <p className="quiet">{words.cleanedHelp}</p>
          {switched.map(({ kind, message, tidy }) => (
            <Tick
              key={kind}
              text={message}
              selected={!without.includes(tidy ?? '')}
              onChange={(on) => switchIt(tidy ?? '', on)}
            />
          ))}
          {off.map((name) => (
            <Tick key={name} text={words.leftUndone(name)} selected={false} onChange={() => switchIt(name, true)} />
          ))}
        </section>
      )}
      {plain.length > 0 && (
        <section aria-labelledby="noted">
          <h2 id="noted">{words.noted}</h2>
          <ul>
            {plain.map(({ kind, message }) => (
              <li key={kind + message}>{message}</li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}
