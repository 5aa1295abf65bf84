import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button, ButtonLink } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

export interface OwnHouseholdsPageProps {
  readonly frame: Frame;
  readonly households: readonly { readonly id: string; readonly name: string; readonly keys: FormKeys }[];
  /** Deleted, and kept for a while; `keys` where the reader may bring it back. */
  readonly deleted: readonly {
    readonly id: string;
    readonly name: string;
    readonly words: string;
    readonly keys: FormKeys | null;
  }[];
  readonly mayBegin: boolean;
}

/** The households somebody belongs to, and those that were deleted lately. */
export const OwnHouseholdsPage = ({ frame, households, deleted, mayBegin }: OwnHouseholdsPageProps) => (
  <Page frame={frame} title="Your households" section="kitchen" about="The households you belong to.">
    <h1 class="page-title">Your households</h1>
    {households.length === 0 ? (
      <EmptyState text="You belong to no household now. An owner of one can invite you." />
    ) : (
      <div class="other-households">
        {households.map(({ id, name, keys }) => (
          <PostForm key={id} action={`/start/households/${id}`} keys={keys} class="inline-form">
            <Button>{`Open ${name}`}</Button>
          </PostForm>
        ))}
      </div>
    )}
    {deleted.length === 0 ? null : (
      <Part title="Deleted">
        {deleted.map(({ id, name, words, keys }) => (
          <div key={id}>
            <p>{words}</p>
            {keys === null ? (
              <p class="hint">An owner of it can bring it back until then.</p>
            ) : (
              <PostForm action={`/households/${id}/return`} keys={keys} label={`Bring ${name} back`}>
                <Button weight="main">{`Bring ${name} back`}</Button>
              </PostForm>
            )}
          </div>
        ))}
      </Part>
    )}
    {mayBegin ? (
      <p>
        <ButtonLink href="/start">Set up a household</ButtonLink>
      </p>
    ) : null}
  </Page>
);
