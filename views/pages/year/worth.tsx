import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';

export type WorthAnswer = readonly { readonly words: string; readonly value: string }[];

export type WorthProps =
  | { readonly state: 'to ask'; readonly keys: FormKeys }
  | { readonly state: 'answered'; readonly answer: WorthAnswer };

/** What a little more of what is short would be worth over the year; worked out when asked. */
export const WorthOfMore = (props: WorthProps) => (
  <details id="worth" open={props.state === 'answered'}>
    <summary>What a little more would be worth</summary>
    <p class="quiet">
      Money saved over the year, with a price on everything that would fit after all. Batches count in parts
      here, so take it as a guide.
    </p>
    {props.state === 'to ask' ? (
      <PostForm action="/year/worth" keys={props.keys} replaces="#worth">
        <p>
          <Button>Work it out</Button>
        </p>
        <p class="hint">This takes a few seconds.</p>
      </PostForm>
    ) : (
      <div role="status">
        {props.answer.length === 0 ? (
          <p>It could not be worked out in the time allowed. Load the page anew and ask again.</p>
        ) : (
          <dl class="facts">
            {props.answer.map((one) => (
              <div key={one.words}>
                <dt>{one.words}</dt>
                <dd>{one.value}</dd>
              </div>
            ))}
          </dl>
        )}
      </div>
    )}
  </details>
);
