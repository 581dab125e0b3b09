// Notes every error of a page, for the engine whose console cannot be read under automation.
if (!window.harnessErrors) {
  const errors = (window.harnessErrors = []);
  const log = console.error;
  console.error = (...parts) => {
    errors.push(parts.map(String).join(" "));
    log.apply(console, parts);
  };
  addEventListener("error", (event) => errors.push(event.message ?? `${event.target.outerHTML} did not load`), true);
  addEventListener("unhandledrejection", (event) => errors.push(`unhandled rejection: ${event.reason}`));
  addEventListener("securitypolicyviolation", (event) => errors.push(`policy violated: ${event.violatedDirective}`));
}
