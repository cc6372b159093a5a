/**
 * Questions that must be answered before a task goes on. In: a question with its answers; out: a promise of the answer, and
 * the dialog that asks it. Questions wait for one another.
 */
import { type Readable, Store, useStore } from '../state/index.ts';
import { Button } from './controls.tsx';
import { Dialog } from './overlays.tsx';

export interface Answer<Id extends string> {
  readonly id: Id;
  readonly text: string;
  readonly look?: 'main' | 'grave';
}

export interface Question<Id extends string> {
  readonly title: string;
  /** What happened, what is safe, what can be done: one paragraph each. */
  readonly text: readonly string[];
  readonly answers: readonly Answer<Id>[];
  /** What closing the dialog means; null where it has to be answered. */
  readonly otherwise: Id | null;
}

interface Asked {
  readonly question: Question<string>;
  readonly answer: (id: string) => void;
}

export class Asking extends Store<readonly Asked[]> implements Readable<readonly Asked[]> {
  constructor() {
    super([]);
  }

  ask<Id extends string>(question: Question<Id>): Promise<Id> {
    return new Promise((resolve) => {
      const asked: Asked = {
        question,
        answer: (id) => {
          this.become(this.get().filter((each) => each !== asked));
          resolve(id as Id);
        },
      };
      this.become([...this.get(), asked]);
    });
  }

  /** Tells something that has no choice. */
  async tell(title: string, text: readonly string[], close: string): Promise<void> {
    await this.ask({ title, text, answers: [{ id: 'close', text: close, look: 'main' }], otherwise: 'close' });
  }
}

/** The dialog of the question that waits longest. */
export function Questions({ asking }: { readonly asking: Asking }) {
  const asked = useStore(asking, (all) => all[0]);
  if (!asked) return null;
  const { title, text, answers, otherwise } = asked.question;
  return (
    <Dialog
      title={title}
      role="alertdialog"
      onClose={otherwise === null ? null : () => asked.answer(otherwise)}
      actions={answers.map(({ id, text: label, look }) => (
        <Button key={id} {...(look ? { look } : {})} onPress={() => asked.answer(id)} autoFocus={look === 'main'}>
          {label}
        </Button>
      ))}
    >
      {text.map((each) => (
        <p key={each}>{each}</p>
      ))}
    </Dialog>
  );
}
