// own gives a property or method of the browser's own as a function of an element. A form has to be asked this way: a
// field named "action" or "remove" stands in for the form's own.
export function own(type, name) {
  const { get, value } = Object.getOwnPropertyDescriptor(type.prototype, name);
  return Function.prototype.call.bind(get || value);
}

export const attribute = own(Element, 'getAttribute');
export const setAttribute = own(Element, 'setAttribute');
export const hasAttribute = own(Element, 'hasAttribute');
export const removeAttribute = own(Element, 'removeAttribute');
export const closest = own(Element, 'closest');
export const find = own(Element, 'querySelector');
export const findAll = own(Element, 'querySelectorAll');
export const fieldsOf = own(HTMLFormElement, 'elements');
export const resetForm = own(HTMLFormElement, 'reset');
export const submitForm = own(HTMLFormElement, 'submit');
export const pressForm = own(HTMLFormElement, 'requestSubmit');

// addressOf gives where a form is sent.
export function addressOf(form) {
  return new URL(attribute(form, 'action') || location.href, location.href);
}

// asks reports whether a form only asks for a page, and changes nothing.
export function asks(form) {
  return (attribute(form, 'method') || 'get').toLowerCase() === 'get';
}
