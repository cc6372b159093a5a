/** Short news at the window's corner. In: a sentence and perhaps one thing to do; out: a note that goes by itself. */
import {
  UNSTABLE_Toast as AriaToast,
  Text,
  UNSTABLE_ToastContent as ToastContent,
  UNSTABLE_ToastQueue as ToastQueue,
  UNSTABLE_ToastRegion as ToastRegion,
} from 'react-aria-components';
import { Button, IconButton } from './controls.tsx';
import { texts } from './texts/en.ts';

export interface News {
  readonly text: string;
  readonly kind: 'done' | 'problem';
  readonly action?: { readonly text: string; readonly run: () => void };
}

export type NewsQueue = ToastQueue<News>;

export function newsQueue(): NewsQueue {
  return new ToastQueue<News>({ maxVisibleToasts: 3 });
}

/** Milliseconds that news stays; problems stay until they are put away. */
const STAY = 6_000;

export function tellNews(queue: NewsQueue, news: News): void {
  queue.add(news, news.kind === 'done' ? { timeout: STAY } : {});
}

export function Toasts({ queue }: { readonly queue: NewsQueue }) {
  return (
    <ToastRegion queue={queue} className="toasts" aria-label={texts.common.news}>
      {({ toast }) => (
        <AriaToast toast={toast} className="toast" data-kind={toast.content.kind}>
          <ToastContent>
            <Text slot="title">{toast.content.text}</Text>
          </ToastContent>
          {toast.content.action && (
            <Button
              look="bare"
              onPress={() => {
                toast.content.action?.run();
                queue.close(toast.key);
              }}
            >
              {toast.content.action.text}
            </Button>
          )}
          <IconButton icon="close" name={texts.common.putAway} onPress={() => queue.close(toast.key)} />
        </AriaToast>
      )}
    </ToastRegion>
  );
}
