// Before anything is painted: which of the shell's two languages is shown. The program decides by the same rule.
(() => {
  let kept = null;
  try {
    kept = localStorage.getItem(`lowside${location.pathname.replace(/[^/]*$/, "")}language`) ?? localStorage.getItem("lowside.language");
  } catch {
    // Storage may be denied.
  }
  const asked = new URLSearchParams(location.search).get("lang");
  const first = [asked, kept, navigator.language].find((tag) => /^(en|es)(-|$)/i.test(tag ?? ""));
  document.documentElement.lang = /^es/i.test(first ?? "") ? "es" : "en";
})();
