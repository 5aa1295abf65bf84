import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';

export interface OtherHouseholdsProps {
  readonly others: readonly { readonly id: string; readonly name: string; readonly keys: FormKeys }[];
  readonly demo: { readonly isThere: boolean; readonly name: string | null; readonly keys: FormKeys };
}

/** The households this file already holds, and the invented one to look around in. */
export const OtherHouseholds = ({ others, demo }: OtherHouseholdsProps) => (
  <div class="other-households">
    {others.map(({ id, name, keys }) => (
      <PostForm key={id} action={`/start/households/${id}`} keys={keys} class="inline-form">
        <Button>{`Open ${name}`}</Button>
      </PostForm>
    ))}
    <PostForm action="/start/demo" keys={demo.keys} class="inline-form">
      <Button>
        {demo.isThere ? `Look around in ${demo.name ?? 'the demo'}` : 'Look around in the demo first'}
      </Button>
    </PostForm>
  </div>
);
