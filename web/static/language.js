// Before anything is painted: which of the shell's two languages is shown, and in which theme. The program decides by the same rules.
(() => {
  const keep = (name) => {
    try {
      return localStorage.getItem(`lowside${location.pathname.replace(/[^/]*$/, "")}${name}`) ?? localStorage.getItem(`lowside.${name}`);
    } catch {
      return null; // Storage may be denied.
    }
  };
  const root = document.documentElement;
  const query = new URLSearchParams(location.search);
  const first = [query.get("lang"), keep("language"), navigator.language].find((tag) => /^(en|es)(-|$)/i.test(tag ?? ""));
  root.lang = /^es/i.test(first ?? "") ? "es" : "en";
  root.dataset.theme = query.get("layout") === "projector" ? "light" : (keep("theme") ?? "system");
})();
