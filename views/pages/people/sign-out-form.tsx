import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';

/** The way out, of this browser or of all. */
export const SignOutForm = ({ keys }: { keys: FormKeys }) => (
  <PostForm action="/sign-out" keys={keys} label="Sign out">
    <p>
      <Button name="where" value="here">
        Sign out
      </Button>{' '}
      <Button weight="quiet" name="where" value="everywhere">
        Sign out everywhere
      </Button>
    </p>
  </PostForm>
);
