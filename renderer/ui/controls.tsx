/** Buttons and fields of one look. In: what react-aria's own take, fewer words needed; out: controls with names and help. */
import type { ReactNode } from 'react';
import {
  Button as AriaButton,
  type ButtonProps as AriaButtonProps,
  Checkbox as AriaCheckbox,
  FieldError,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Radio,
  RadioGroup,
  Select,
  SelectValue,
  Text,
  TextArea,
  TextField,
} from 'react-aria-components';
import { Icon, type IconName } from './icons.tsx';

export interface ButtonProps extends Omit<AriaButtonProps, 'className' | 'children'> {
  readonly look?: 'main' | 'bare' | 'grave';
  readonly icon?: IconName;
  readonly children: ReactNode;
}

export function Button({ look, icon, children, ...rest }: ButtonProps) {
  return (
    <AriaButton {...rest} className={['button', look].filter(Boolean).join(' ')}>
      {icon && <Icon name={icon} />}
      {children}
    </AriaButton>
  );
}

export interface IconButtonProps extends Omit<AriaButtonProps, 'className' | 'children'> {
  readonly icon: IconName;
  /** What it does, for those who don't see the drawing. */
  readonly name: string;
}

export function IconButton({ icon, name, ...rest }: IconButtonProps) {
  return (
    <AriaButton {...rest} aria-label={name} className="button bare icon">
      <Icon name={icon} />
    </AriaButton>
  );
}

export interface TextInputProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly onDone?: () => void;
  readonly help?: string | undefined;
  readonly problem?: string | null;
  readonly rows?: boolean;
  readonly placeholder?: string;
  readonly autoFocus?: boolean;
  /** BCP 47, where the text is the book's rather than the interface's. */
  readonly lang?: string;
}

export function TextInput(props: TextInputProps) {
  const { label, value, onChange, onDone, help, problem = null, rows = false, placeholder, lang } = props;
  const shared = {
    className: 'input',
    ...(placeholder === undefined ? {} : { placeholder }),
    ...(lang ? { lang } : {}),
  };
  return (
    <TextField
      className="field"
      value={value}
      onChange={onChange}
      isInvalid={problem !== null}
      autoFocus={props.autoFocus ?? false}
      {...(onDone ? { onBlur: onDone } : {})}
    >
      <Label>{label}</Label>
      {rows ? <TextArea {...shared} /> : <Input {...shared} />}
      {help && problem === null && (
        <Text slot="description" className="field-help">
          {help}
        </Text>
      )}
      <FieldError className="field-problem">{problem}</FieldError>
    </TextField>
  );
}

export interface Option<Value extends string> {
  readonly value: Value;
  readonly text: string;
}

export interface ChooserProps<Value extends string> {
  readonly label: string;
  readonly value: Value;
  readonly options: readonly Option<Value>[];
  readonly onChange: (value: Value) => void;
  readonly help?: string;
}

/** One of many, in a list that opens. */
export function Chooser<Value extends string>({ label, value, options, onChange, help }: ChooserProps<Value>) {
  return (
    <Select className="field" value={value} onChange={(key) => onChange(String(key) as Value)}>
      <Label>{label}</Label>
      <AriaButton className="chooser">
        <SelectValue />
        <Icon name="down" />
      </AriaButton>
      {help && (
        <Text slot="description" className="field-help">
          {help}
        </Text>
      )}
      <Popover className="popover">
        <ListBox className="menu" items={options.map((each) => ({ ...each, id: each.value }))}>
          {(option) => (
            <ListBoxItem className="menu-item" id={option.value} textValue={option.text}>
              {option.text}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </Select>
  );
}

/** One of few, all in view. */
export function ChoiceRow<Value extends string>({ label, value, options, onChange }: ChooserProps<Value>) {
  return (
    <RadioGroup className="field" value={value} onChange={(next) => onChange(next as Value)} orientation="horizontal">
      <Label className="field-label">{label}</Label>
      <div className="choice-row">
        {options.map((option) => (
          <Radio key={option.value} value={option.value} className="choice">
            {option.text}
          </Radio>
        ))}
      </div>
    </RadioGroup>
  );
}

export interface TickProps {
  readonly text: string;
  readonly selected: boolean;
  readonly onChange: (selected: boolean) => void;
}

export function Tick({ text, selected, onChange }: TickProps) {
  return (
    <AriaCheckbox className="tick" isSelected={selected} onChange={onChange}>
      <span className="box">
        <Icon name="tick" />
      </span>
      {text}
    </AriaCheckbox>
  );
}
