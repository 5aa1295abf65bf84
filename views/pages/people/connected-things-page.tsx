import type { ownConnectedThingForm } from '../../../shared/schemas/account.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { InputField, RadioField, type StateOf } from '../../parts/fields.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface ConnectedThingLine {
  readonly id: string;
  readonly name: string;
  /** `may read and take; connected by Ida on Aug 17, 2026; last used today` */
  readonly words: string;
  readonly keys: FormKeys;
}

export interface ConnectedThingsPageProps {
  readonly frame: Frame;
  readonly things: readonly ConnectedThingLine[];
  /** An access token that was just made; it is shown this once. */
  readonly made: { readonly name: string; readonly token: string } | null;
  /** Where the interface begins, as the thing has to be told. */
  readonly address: string;
  readonly form: StateOf<typeof ownConnectedThingForm>;
  readonly asksPassphrase: boolean;
}

/** What reads the shelf besides people: a display, a home server. */
export const ConnectedThingsPage = ({
  frame,
  things,
  made,
  address,
  form,
  asksPassphrase,
}: ConnectedThingsPageProps) => (
  <Page
    frame={frame}
    title="Connected things"
    section="kitchen"
    about="Displays and home servers that read this household’s shelf."
  >
    <h1 class="page-title">Connected things</h1>
    <p class="page-line">
      A display on the fridge, the automations of a home server: what reads the shelf, the week and the
      notices by itself, and takes jars where you let it.
    </p>
    {made === null ? null : (
      <div class="banner banner-done" role="status">
        <p>{`${made.name} is connected. Copy its access token now; it is not shown again:`}</p>
        <p>
          <code class="calendar-address">{made.token}</code>
        </p>
      </div>
    )}
    <Things things={things} />
    <Connect form={form} asksPassphrase={asksPassphrase} />
    <Part
      title="How it asks"
      id="how"
      line="Under this address, with “Authorization: Bearer” and its access token."
    >
      <p>
        <code class="calendar-address">{address}</code>
      </p>
      <p class="more">
        <a href={`${address}/openapi.json`}>What it can ask, in OpenAPI 3.1</a>
      </p>
      <p class="more">
        <a href="/people">{pageNames.people}</a>
      </p>
    </Part>
  </Page>
);

const Things = ({ things }: { things: readonly ConnectedThingLine[] }) => (
  <Part
    title="What is connected"
    id="things"
    line="Withdraw what you no longer use, or whose token somebody else may have seen: it opens nothing from then on. What a member connected is withdrawn when the member leaves or is no longer an owner."
  >
    {things.length === 0 ? (
      <EmptyState text="Nothing is connected." />
    ) : (
      <ul class="removable">
        {things.map(({ id, name, words, keys }) => (
          <li key={id}>
            <span>
              <strong>{name}</strong>
              {`, ${words}`}
            </span>
            <PostForm
              action={`/connected-things/${id}/withdrawal`}
              keys={keys}
              class="inline-form"
              label={`Withdraw ${name}`}
            >
              <Button weight="quiet" label={`Withdraw ${name}`}>
                Withdraw
              </Button>
            </PostForm>
          </li>
        ))}
      </ul>
    )}
  </Part>
);

const Connect = ({ form, asksPassphrase }: Pick<ConnectedThingsPageProps, 'form' | 'asksPassphrase'>) => (
  <Part title="Connect a thing" id="connect">
    <PostForm action="/connected-things" form={form} label="Connect a thing">
      <InputField form={form} name="name" label="Name" hint="What you call it: Fridge display." />
      <RadioField
        form={form}
        name="may"
        label="It may"
        choices={[
          { value: 'read', words: 'read only' },
          { value: 'read and take', words: 'read, take from the shelf and undo what was taken' },
        ]}
      />
      <InputField
        form={form}
        name="endsOn"
        label="Last day"
        hint="Leave it blank and it goes on until you withdraw it."
        type="date"
      />
      {asksPassphrase ? (
        <InputField
          form={form}
          name="present"
          label="Present passphrase"
          type="password"
          autocomplete="current-password"
        />
      ) : null}
      <p>
        <Button weight="main">Connect it</Button>
      </p>
    </PostForm>
  </Part>
);
