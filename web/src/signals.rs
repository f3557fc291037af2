//! Leptos's signals and memos under one type each.
//!
//! Every type of signal or memo is compiled for itself, and so is every place
//! that reads one. Here they all hold the same shared pointer and are read by
//! the same function; only the look inside knows the type.

use leptos::prelude::*;
use leptos::reactive::graph::{Observer, Subscriber};
use std::any::Any;
use std::marker::PhantomData;
use std::rc::Rc;
use std::sync::Arc;

type Shared = Arc<dyn Any + Send + Sync>;

/// A closure behind a pointer, with one entry instead of the three of `dyn Fn`:
/// the compiler writes the body of each closure once.
pub(crate) trait Call<I, O> {
    /// Calls it.
    fn call(&self, input: I) -> O;
}

impl<I, O, F: Fn(I) -> O> Call<I, O> for F {
    fn call(&self, input: I) -> O {
        self(input)
    }
}

/// A value that can be set. Copies are the same value.
pub(crate) struct Value<T> {
    signal: RwSignal<Shared>,
    holds: PhantomData<fn() -> T>,
}

/// A value that follows from others. It is computed when it is read, and only
/// where something it read has changed since. Copies are the same value.
pub(crate) struct Derived<T> {
    memo: Memo<Shared>,
    holds: PhantomData<fn() -> T>,
}

impl<T> Clone for Value<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Value<T> {}

impl<T> Clone for Derived<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Derived<T> {}

impl<T> std::fmt::Debug for Value<T> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Value")
    }
}

impl<T> std::fmt::Debug for Derived<T> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Derived")
    }
}

impl<T: Send + Sync + 'static> Value<T> {
    /// A value to begin with.
    pub(crate) fn new(value: T) -> Self {
        Self { signal: signal(Arc::new(value)), holds: PhantomData }
    }

    /// Looks at the value and follows it.
    pub(crate) fn with<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        look(inside(&read(self.signal)))
    }

    /// Looks at the value without following it.
    pub(crate) fn with_now<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        look(inside(&read_now(self.signal)))
    }

    /// Sets the value.
    pub(crate) fn set(&self, value: T) {
        write(self.signal, Arc::new(value));
    }
}

impl<T: Clone + Send + Sync + 'static> Value<T> {
    /// The value, followed.
    pub(crate) fn get(&self) -> T {
        self.with(T::clone)
    }

    /// The value, not followed.
    pub(crate) fn now(&self) -> T {
        self.with_now(T::clone)
    }

    /// Changes the value.
    pub(crate) fn update(&self, change: impl FnOnce(&mut T)) {
        let mut value = self.now();
        change(&mut value);
        self.set(value);
    }
}

impl<T: PartialEq + Send + Sync + 'static> Derived<T> {
    /// A value computed by `compute`. Who reads it is told only when it differs.
    pub(crate) fn new(compute: impl Fn() -> T + Send + Sync + 'static) -> Self {
        let memo = memo(Box::new(move |old: Option<&Shared>| -> New {
            let value = compute();
            let same = old.is_some_and(|old| *inside::<T>(old) == value);
            (Some(Arc::new(value)), !same)
        }));
        Self { memo, holds: PhantomData }
    }
}

impl<T: Send + Sync + 'static> Derived<T> {
    /// The same for a value that is not worth comparing: computed anew means changed.
    pub(crate) fn always(compute: impl Fn() -> T + Send + Sync + 'static) -> Self {
        Self {
            memo: memo(Box::new(move |_: Option<&Shared>| -> New { (Some(Arc::new(compute())), true) })),
            holds: PhantomData,
        }
    }

    /// The same where `compute` itself says that the value stays as it is, by giving none; it is told
    /// whether there is one yet.
    pub(crate) fn paced(compute: impl Fn(bool) -> Option<T> + Send + Sync + 'static) -> Self {
        let memo = memo(Box::new(move |old: Option<&Shared>| -> New {
            let new = compute(old.is_some());
            let differs = new.is_some();
            (new.map(|new| -> Shared { Arc::new(new) }), differs)
        }));
        Self { memo, holds: PhantomData }
    }

    /// Looks at the value and follows it.
    pub(crate) fn with<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        look(inside(&read_memo(self.memo)))
    }

    /// Looks at the value without following it.
    pub(crate) fn with_now<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        look(inside(&read_memo_now(self.memo)))
    }
}

impl<T: Clone + Send + Sync + 'static> Derived<T> {
    /// The value, followed.
    pub(crate) fn get(&self) -> T {
        self.with(T::clone)
    }

    /// The value, not followed.
    pub(crate) fn now(&self) -> T {
        self.with_now(T::clone)
    }
}

/// Something kept as long as its owner, of one type for all. Copies are the same thing.
pub(crate) struct Kept<T> {
    stored: StoredValue<Rc<dyn Any>, LocalStorage>,
    holds: PhantomData<fn() -> T>,
}

impl<T> Clone for Kept<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Kept<T> {}

impl<T: 'static> Kept<T> {
    /// Keeps a thing.
    pub(crate) fn new(thing: T) -> Self {
        Self { stored: keep(Rc::new(thing)), holds: PhantomData }
    }

    /// Looks at it.
    pub(crate) fn with<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        let thing = fetch(self.stored);
        look(thing.downcast_ref().expect("a Kept<T> is only ever made of a T"))
    }
}

fn inside<T: 'static>(shared: &Shared) -> &T {
    shared.downcast_ref().expect("a Value<T> or Derived<T> is only ever made of a T")
}

#[inline(never)]
fn signal(value: Shared) -> RwSignal<Shared> {
    RwSignal::new(value)
}

#[inline(never)]
fn read(signal: RwSignal<Shared>) -> Shared {
    signal.get()
}

#[inline(never)]
fn read_now(signal: RwSignal<Shared>) -> Shared {
    signal.get_untracked()
}

#[inline(never)]
fn write(signal: RwSignal<Shared>, value: Shared) {
    signal.set(value);
}

/// What was computed, unless the value stays as it is, and whether it differs.
type New = (Option<Shared>, bool);
type Compute = Box<dyn for<'a> Call<Option<&'a Shared>, New> + Send + Sync>;

#[inline(never)]
fn memo(compute: Compute) -> Memo<Shared> {
    Memo::new_owning(move |old: Option<Shared>| {
        unlist();
        let (new, differs) = compute.call(old.as_ref());
        (new.or(old).expect("what is asked for the first time is there"), differs)
    })
}

/// Has whoever is computing taken off the lists of what it reads when its owner ends: the reactive
/// core drops it and leaves its entry, and a value that never changes would gather them for ever.
#[inline(never)]
pub(crate) fn unlist() {
    if let Some(this) = Observer::get() {
        on_cleanup(move || this.clear_sources(&this));
    }
}

#[inline(never)]
fn read_memo(memo: Memo<Shared>) -> Shared {
    memo.get()
}

#[inline(never)]
fn read_memo_now(memo: Memo<Shared>) -> Shared {
    memo.get_untracked()
}

#[inline(never)]
fn keep(thing: Rc<dyn Any>) -> StoredValue<Rc<dyn Any>, LocalStorage> {
    StoredValue::new_local(thing)
}

#[inline(never)]
fn fetch(stored: StoredValue<Rc<dyn Any>, LocalStorage>) -> Rc<dyn Any> {
    stored.get_value()
}
