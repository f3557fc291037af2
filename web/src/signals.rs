//! Leptos's signals and memos under one type each.
//!
//! Every type of signal or memo is compiled for itself, and so is every place
//! that reads one. Here they all hold the same shared pointer and are read by
//! the same function; only the look inside knows the type.

use leptos::prelude::*;
use leptos::reactive::graph::{Observer, Subscriber};
use std::any::Any;
use std::cell::RefCell;
use std::marker::PhantomData;
use std::ops::Deref;
use std::rc::Rc;
use std::sync::Arc;

type Boxed = Box<dyn Any + Send + Sync>;

/// A value that is looked at while another may take its place. Behind a second pointer, since one that knows no
/// type is a single word: hundreds of places take one, look inside and let go of it.
type Shared = Arc<Boxed>;

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
    handle: Handle,
    holds: PhantomData<fn() -> T>,
}

/// A value that follows from others. It is computed when it is read, and only
/// where something it read has changed since. Copies are the same value.
pub(crate) struct Derived<T> {
    handle: Handle,
    holds: PhantomData<fn() -> T>,
}

/// What follows from values that were compared already: the same where it is the very same one. To look through all of a
/// truck once more would take a reader of every number in it.
#[derive(Debug)]
pub(crate) struct Same<T>(Arc<T>);

impl<T> Same<T> {
    /// Another than all there are.
    pub(crate) fn new(value: T) -> Self {
        Self(Arc::new(value))
    }
}

impl<T> Clone for Same<T> {
    fn clone(&self) -> Self {
        Self(Arc::clone(&self.0))
    }
}

impl<T> PartialEq for Same<T> {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

impl<T> AsRef<T> for Same<T> {
    fn as_ref(&self) -> &T {
        &self.0
    }
}

impl<T> Deref for Same<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.0
    }
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
        Self { handle: signal(Box::new(value)), holds: PhantomData }
    }

    /// Looks at the value and follows it.
    pub(crate) fn with<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        self.handle.look(read, look)
    }

    /// Looks at the value without following it.
    pub(crate) fn with_now<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        self.handle.look(read_now, look)
    }

    /// Sets the value.
    pub(crate) fn set(&self, value: T) {
        write(self.handle, Box::new(value));
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
        let handle = memo(Box::new(move |old: Option<&Shared>| -> Option<Boxed> {
            let value = compute();
            let same = old.is_some_and(|old| *inside::<T>(old) == value);
            if same { None } else { Some(Box::new(value)) }
        }));
        Self { handle, holds: PhantomData }
    }
}

impl<T: Send + Sync + 'static> Derived<T> {
    /// The same for a value that is not worth comparing: computed anew means changed.
    pub(crate) fn always(compute: impl Fn() -> T + Send + Sync + 'static) -> Self {
        let handle = memo(Box::new(move |_: Option<&Shared>| -> Option<Boxed> { Some(Box::new(compute())) }));
        Self { handle, holds: PhantomData }
    }

    /// The same where `compute` itself says that the value stays as it is, by giving none; it is told
    /// whether there is one yet.
    pub(crate) fn paced(compute: impl Fn(bool) -> Option<T> + Send + Sync + 'static) -> Self {
        let handle = memo(Box::new(move |old: Option<&Shared>| -> Option<Boxed> {
            compute(old.is_some()).map(|new| -> Boxed { Box::new(new) })
        }));
        Self { handle, holds: PhantomData }
    }

    /// Looks at the value and follows it.
    pub(crate) fn with<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        self.handle.look(read, look)
    }

    /// Looks at the value without following it.
    pub(crate) fn with_now<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        self.handle.look(read_now, look)
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
    handle: Handle,
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
        Self { handle: hold(Held::Thing(Rc::new(thing))), holds: PhantomData }
    }

    /// Looks at it.
    pub(crate) fn with<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        let thing = thing(self.handle);
        look(thing.downcast_ref().expect("a Kept<T> is only ever made of a T"))
    }
}

#[inline(never)]
fn inside<T: 'static>(shared: &Shared) -> &T {
    (***shared).downcast_ref().expect("a Value<T> or Derived<T> is only ever made of a T")
}

/// What a handle leads to.
#[derive(Clone)]
enum Held {
    Signal(ArcRwSignal<Shared>),
    Memo(ArcMemo<Shared>),
    Thing(Rc<dyn Any>),
}

/// Where something is held for as long as its owner, in one word: Leptos's own handles are two, and the page's
/// closures keep a thousand of them, each by code that puts it there.
///
/// The lower half is its place in the list, the upper how many were held there before: what is gone is not taken
/// for what came after.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Handle(u32);

/// Everything that is held, by its place, and the places that are free.
#[derive(Default)]
struct Places {
    all: Vec<(Handle, Option<Held>)>,
    free: Vec<Handle>,
}

thread_local! {
    static PLACES: RefCell<Places> = RefCell::default();
}

impl Places {
    fn put(&mut self, held: Held) -> Handle {
        let handle = self.free.pop().unwrap_or_else(|| {
            let next = u16::try_from(self.all.len()).expect("a page holds some thousands of things");
            let handle = Handle(u32::from(next));
            self.all.push((handle, None));
            handle
        });
        self.all[handle.place()] = (handle, Some(held));
        handle
    }

    fn take(&mut self, handle: Handle) -> Option<Held> {
        self.free.push(Handle(handle.0.wrapping_add(1 << 16)));
        self.all[handle.place()].1.take()
    }
}

impl Handle {
    const fn place(self) -> usize {
        self.0 as usize & 0xffff
    }

    /// Looks at the value that `read` finds.
    fn look<T: 'static, U>(self, read: fn(Self) -> Shared, look: impl FnOnce(&T) -> U) -> U {
        let value = read(self);
        let found = look(inside(&value));
        let_go(value);
        found
    }

    /// What it leads to, until its owner has ended.
    #[inline(never)]
    fn held(self) -> Option<Held> {
        PLACES.with_borrow(|places| {
            let (handle, held) = &places.all[self.place()];
            held.clone().filter(|_| handle.0 == self.0)
        })
    }
}

/// What the owner of something that is held keeps, and drops when it ends.
struct Hold(Handle);

impl Drop for Hold {
    fn drop(&mut self) {
        // What is dropped with it may have held something itself.
        let held = PLACES.with_borrow_mut(|places| places.take(self.0));
        drop(held);
    }
}

/// Holds something for as long as the owner.
#[inline(never)]
fn hold(held: Held) -> Handle {
    let handle = PLACES.with_borrow_mut(|places| places.put(held));
    StoredValue::new(Hold(handle));
    handle
}

#[inline(never)]
fn signal(value: Boxed) -> Handle {
    hold(Held::Signal(ArcRwSignal::new(Arc::new(value))))
}

#[inline(never)]
fn read(handle: Handle) -> Shared {
    match handle.held() {
        Some(Held::Signal(signal)) => signal.get(),
        Some(Held::Memo(memo)) => memo.get(),
        _ => unreachable!("nothing is read after its owner has ended"),
    }
}

#[inline(never)]
fn thing(handle: Handle) -> Rc<dyn Any> {
    match handle.held() {
        Some(Held::Thing(thing)) => thing,
        _ => unreachable!("nothing is looked at after its owner has ended"),
    }
}

/// Who lets go of a value by its address has to give it one.
#[inline(never)]
fn let_go(value: Shared) {
    drop(value);
}

#[inline(never)]
fn read_now(handle: Handle) -> Shared {
    untrack(|| read(handle))
}

#[inline(never)]
fn write(handle: Handle, value: Boxed) {
    if let Some(Held::Signal(signal)) = handle.held() {
        signal.set(Arc::new(value));
    }
}

/// Computes a value, or says by none that it stays as it is.
type Compute = Box<dyn for<'a> Call<Option<&'a Shared>, Option<Boxed>> + Send + Sync>;

#[inline(never)]
fn memo(compute: Compute) -> Handle {
    hold(Held::Memo(ArcMemo::new_owning(move |old: Option<Shared>| {
        unlist();
        let new = compute.call(old.as_ref()).map(Arc::new);
        let differs = new.is_some();
        (new.or(old).expect("what is asked for the first time is there"), differs)
    })))
}

/// Has whoever is computing taken off the lists of what it reads when its owner ends: the reactive
/// core drops it and leaves its entry, and a value that never changes would gather them for ever.
#[inline(never)]
pub(crate) fn unlist() {
    if let Some(this) = Observer::get() {
        on_cleanup(move || this.clear_sources(&this));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicU8, Ordering::Relaxed};

    fn places() -> usize {
        PLACES.with_borrow(|places| places.all.len() - places.free.len())
    }

    /// What is held goes with its owner, and what it held goes with it.
    #[test]
    fn nothing_is_held_longer_than_its_owner() {
        let (held, before) = (Rc::new(()), places());
        let owner = Owner::new();
        let (thing, value) = owner.with(|| {
            let value = Value::new(3);
            let twice = Derived::new(move || 2 * value.get());
            assert_eq!(twice.get(), 6);
            (Kept::new(Rc::clone(&held)), value)
        });
        assert_eq!((places() - before, Rc::strong_count(&held)), (3, 2));
        owner.cleanup();
        assert_eq!((places(), Rc::strong_count(&held)), (before, 1));
        assert!(thing.handle.held().is_none() && value.handle.held().is_none());
    }

    /// A place that is free is taken again, and who still points there is not given what came after.
    #[test]
    fn what_is_gone_is_not_taken_for_what_came_after() {
        let owner = Owner::new();
        let before = owner.with(|| Value::new(1));
        owner.cleanup();
        let after = owner.with(|| Value::new(2));
        assert_eq!(before.handle.place(), after.handle.place());
        // Who answers late says it to nobody.
        before.set(3);
        assert_eq!(after.now(), 2);
        assert!(before.handle.held().is_none());
    }

    /// Equal to what was there it stays as it is, and who reads it is not told.
    #[test]
    fn a_value_that_comes_out_alike_tells_nobody() {
        let reads = Arc::new(AtomicU8::new(0));
        let counted = Arc::clone(&reads);
        Owner::new().with(|| {
            let value = Value::new(3);
            let even = Derived::new(move || value.get() % 2 == 0);
            let told = Derived::new(move || (counted.fetch_add(1, Relaxed), even.get()).1);
            for (number, is_even, so_far) in [(3, false, 1), (5, false, 1), (6, true, 2)] {
                value.set(number);
                assert_eq!((told.get(), reads.load(Relaxed)), (is_even, so_far), "{number}");
            }
        });
    }
}
