// Notes when each write to IndexedDB begins and when the browser has finished it.
if (!window.harnessWrites) {
    window.harnessWrites = [];
    const real = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (stores, mode, options) {
        const transaction = real.call(this, stores, mode ?? 'readonly', options);
        if (mode === 'readwrite') {
            const write = { from: performance.now(), to: null };
            window.harnessWrites.push(write);
            const end = () => { write.to = performance.now(); };
            transaction.addEventListener('complete', end);
            transaction.addEventListener('abort', end);
        }
        return transaction;
    };
}
