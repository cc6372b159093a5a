/** What was understood of a manuscript, to be agreed to. */
import { useBookState, useWorkbench } from '../state/index.ts';
import { Button, texts } from '../ui/index.ts';

export function ImportReview() {
  const { books } = useWorkbench();
  const notices = useBookState((state) => state.imported?.notices);
  return (
    <div>
      <ul>
        {notices?.map((notice) => (
          <li key={notice.kind}>{notice.message}</li>
        ))}
      </ul>
      <Button look="main" onPress={() => books.acceptImport()}>
        {texts.common.done}
      </Button>
    </div>
  );
}
