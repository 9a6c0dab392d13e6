import { useEffect, useState } from 'preact/hooks';

/** The page's appearance by name, for pictures that must be painted anew when it changes. */
export function useAppearance(): string {
  const read = (): string => document.documentElement.dataset['appearance'] ?? 'day';
  const [appearance, setAppearance] = useState(read);
  useEffect(() => {
    const observer = new MutationObserver(() => setAppearance(read()));
    observer.observe(document.documentElement, { attributes: true, attributeFilter: ['data-appearance'] });
    return () => observer.disconnect();
  }, []);
  return appearance;
}
